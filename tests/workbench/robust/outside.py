"""Every file that the process writes, renames or removes outside the one folder that it may write in."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

_WRITING = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
_CHANGING = {"os.rename": 2, "os.remove": 1, "os.mkdir": 1, "os.rmdir": 1, "os.chmod": 1, "os.link": 2, "os.symlink": 2,
             "os.truncate": 1, "os.utime": 1, "shutil.rmtree": 1, "shutil.copyfile": 2, "shutil.move": 2}  # fmt: skip
_STARTING = {"subprocess.Popen", "os.system", "os.exec", "os.posix_spawn"}
_watched: list[_Watch] = []  # the system has no way to take a hook out again
_hooked: list[bool] = []


class _Watch:
    """One folder that may be written in, and what was done outside it."""

    def __init__(self, folder: Path) -> None:
        self.folder = os.fspath(folder.resolve())
        self.found: list[str] = []

    def see(self, event: str, args: tuple[Any, ...]) -> None:
        """Look at what the interpreter is about to do."""
        if event == "open":
            paths = args[:1] if isinstance(args[2], int) and args[2] & _WRITING else ()
        elif event in _CHANGING:
            paths = args[: _CHANGING[event]]
        elif event in _STARTING:
            self.found.append(f"{event} {args[:2]}")
            return
        else:
            return
        for one in paths:
            if isinstance(one, str | bytes | os.PathLike) and not self._allowed(os.fsdecode(one)):
                self.found.append(f"{event} {one!r}")

    def _allowed(self, path: str) -> bool:
        real = os.path.abspath(path)  # noqa: PTH100 a link is not to be followed
        return (real in (self.folder, os.devnull) or real.startswith(self.folder + os.sep)
                or "__pycache__" in real or ".hypothesis" in real)  # fmt: skip


def _hook(event: str, args: tuple[Any, ...]) -> None:
    for one in _watched:
        one.see(event, args)


@contextmanager
def watched(folder: Path) -> Iterator[list[str]]:
    """What is done outside a folder while the context lasts, in a list that grows."""
    if not _hooked:
        sys.addaudithook(_hook)
        _hooked.append(True)
    watch = _Watch(folder)
    _watched.append(watch)
    try:
        yield watch.found
    finally:
        _watched.remove(watch)
