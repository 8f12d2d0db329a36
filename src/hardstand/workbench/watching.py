"""Edits made outside the program, seen as they happen."""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import AsyncIterator
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from watchfiles import Change

    from hardstand.workbench.answering import Worker
    from hardstand.workbench.bench import Bench
    from hardstand.workbench.hub import Hub

CALM_MS, STEP_MS = 200, 40  # how long a burst of writes is waited out, and how often it is looked at


def concerns(folder: Path, path: str) -> bool:
    """Whether a file is one of the description's.

    >>> concerns(Path("/a"), "/a/parts/own.toml"), concerns(Path("/a"), "/a/.hardstand/lock")
    (True, False)
    """
    where = Path(path)
    return where.suffix == ".toml" and where.parent in (folder, folder / "parts")


@contextlib.asynccontextmanager
async def watching(bench: Bench, hub: Hub, worker: Worker) -> AsyncIterator[None]:
    """Watch the folder as long as the context lasts, and tell every open page of an edit."""
    task = asyncio.create_task(_watch(bench, hub, worker))
    try:
        yield
    finally:
        hub.close()
        task.cancel()
        with contextlib.suppress(asyncio.CancelledError):
            await task


async def _watch(bench: Bench, hub: Hub, worker: Worker) -> None:
    from watchfiles import awatch

    folder = bench.folder.path.resolve()

    def wanted(_: Change, path: str) -> bool:
        return concerns(folder, path)

    async for _ in awatch(folder, watch_filter=wanted, debounce=CALM_MS, step=STEP_MS):
        if await worker.run(bench.refresh):
            hub.tell(bench.now.revision)
