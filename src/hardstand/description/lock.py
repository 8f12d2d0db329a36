"""One writer at a time: a lock on a file that the system releases when the process ends, however."""

from __future__ import annotations

import os
import sys
import threading
import time
from pathlib import Path
from types import TracebackType
from typing import Self

if sys.platform == "win32":
    import msvcrt

    def _take(descriptor: int) -> None:
        msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
else:
    import fcntl

    def _take(descriptor: int) -> None:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)


class FolderBusyError(OSError):
    """Another process is writing in this folder and has not finished in the time allowed."""


class FolderLock:
    """A lock that its holder may take again inside; other processes and threads wait.

    `wait_s` is how long to wait for another holder before FolderBusyError.
    """

    def __init__(self, path: Path, wait_s: float = 5.0) -> None:
        self._path = path
        self._wait_s = wait_s
        self._thread_lock = threading.RLock()
        self._depth = 0
        self._descriptor = -1

    def __enter__(self) -> Self:
        if not self._thread_lock.acquire(timeout=self._wait_s):
            raise FolderBusyError(f"another part of the program is writing in {self._path.parent}")
        try:
            if self._depth == 0:
                self._descriptor = self._wait_for_file()
            self._depth += 1
        except BaseException:
            self._thread_lock.release()
            raise
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._depth -= 1
        if self._depth == 0:
            os.close(self._descriptor)  # which releases the lock
        self._thread_lock.release()

    def _wait_for_file(self) -> int:
        descriptor = os.open(self._path, os.O_RDWR | os.O_CREAT, 0o666)
        until = time.monotonic() + self._wait_s
        while True:
            try:
                _take(descriptor)
            except OSError:
                if time.monotonic() > until:
                    os.close(descriptor)
                    raise FolderBusyError(
                        f"another program is writing in {self._path.parent.parent}; try again"
                    ) from None
                time.sleep(0.02)
            else:
                return descriptor
