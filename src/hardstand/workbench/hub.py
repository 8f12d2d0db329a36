"""Who listens: open pages that are told when the aeroplane has changed, and how long work goes on."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator

MOST, QUIET_S = 32, 15.0  # open pages; seconds after which a silent line says that it is alive
CHANGED, WORK = "changed", "work"  # the names of what is told


class _Listener:
    """What one page has not been told yet: of each name only the latest."""

    def __init__(self) -> None:
        self.waiting: dict[str, str] = {}
        self.ended = False
        self._new = asyncio.Event()

    def put(self, name: str, data: str) -> None:
        """Have something told."""
        self.waiting[name] = data
        self._new.set()

    def end(self) -> None:
        """Have the stream ended."""
        self.ended = True
        self._new.set()

    async def taken(self) -> dict[str, str]:
        """Wait for something to tell, and take it."""
        await self._new.wait()
        self._new.clear()
        found, self.waiting = self.waiting, {}
        return found


class Hub:
    """Tells every open page the latest revision, and that long work has gone on."""

    def __init__(self) -> None:
        self._listeners: set[_Listener] = set()

    @property
    def full(self) -> bool:
        """Whether as many pages listen as this program serves at once."""
        return len(self._listeners) >= MOST

    def tell(self, revision: str) -> None:
        """Tell all of a revision; call it in the event loop's own thread."""
        self._put(CHANGED, revision)

    def tell_of_work(self) -> None:
        """Tell all that there is news of long work; call it in the event loop's own thread."""
        self._put(WORK, "news")

    def _put(self, name: str, data: str) -> None:
        for one in self._listeners:
            one.put(name, data)

    def close(self) -> None:
        """End every stream, so that the program can end."""
        for one in self._listeners:
            one.end()

    async def events(self) -> AsyncIterator[str]:
        """The stream of one page, as server-sent events.

        It begins with news of work: what was missed while the page was not connected is asked for.
        """
        listener = _Listener()
        self._listeners.add(listener)
        try:
            yield f"retry: 1000\n\n{_event(WORK, 'connected')}"
            while not listener.ended:
                try:
                    told = await asyncio.wait_for(listener.taken(), QUIET_S)
                except TimeoutError:
                    yield ": still here\n\n"
                    continue
                for name, data in told.items():
                    yield _event(name, data)
        finally:
            self._listeners.discard(listener)


def _event(name: str, data: str) -> str:
    return f"event: {name}\ndata: {data}\n\n"
