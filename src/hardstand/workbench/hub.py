"""Who listens: open pages that are told when the aeroplane has changed."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator

MOST, QUIET_S = 32, 15.0  # open pages; seconds after which a silent line says that it is alive


class Hub:
    """Tells every open page the latest revision. A page that is slow hears only the latest."""

    def __init__(self) -> None:
        self._listeners: set[asyncio.Queue[str]] = set()

    @property
    def full(self) -> bool:
        """Whether as many pages listen as this program serves at once."""
        return len(self._listeners) >= MOST

    def tell(self, revision: str) -> None:
        """Tell all; call it in the event loop's own thread."""
        for queue in self._listeners:
            while not queue.empty():
                queue.get_nowait()
            queue.put_nowait(revision)

    def close(self) -> None:
        """End every stream, so that the program can end."""
        self.tell("")

    async def events(self) -> AsyncIterator[str]:
        """The stream of one page, as server-sent events."""
        queue: asyncio.Queue[str] = asyncio.Queue()
        self._listeners.add(queue)
        try:
            yield "retry: 1000\n\n"
            while True:
                try:
                    revision = await asyncio.wait_for(queue.get(), QUIET_S)
                except TimeoutError:
                    yield ": still here\n\n"
                    continue
                if not revision:
                    return
                yield f"event: changed\ndata: {revision}\n\n"
        finally:
            self._listeners.discard(queue)
