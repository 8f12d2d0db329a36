"""Files written whole or not at all, and on the disk before the call returns.

A new content goes to a temporary file beside the target, is flushed to the disk, and takes the
target's name in one step of the file system. On Windows a folder can't be flushed; there the order
of names after a power cut is the file system's own.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import stat
import time
from pathlib import Path

_BINARY = getattr(os, "O_BINARY", 0)
_WINDOWS = os.name == "nt"
_RETRIES = 20  # Windows refuses to replace a file that a virus scanner or editor has open just now


def sha256_of(content: bytes) -> str:
    """The SHA-256 of a content, in hexadecimal.

    >>> sha256_of(b"")[:8]
    'e3b0c442'
    """
    return hashlib.sha256(content).hexdigest()


def stage(target: Path, content: bytes) -> Path:
    """Write and flush a content beside its target, under a temporary name; returns that path.

    The target's permissions are kept. A target that is a link is followed. Raises OSError, leaving
    nothing behind.
    """
    target = target.resolve()
    temporary = target.with_name(f".{target.name}.tmp")
    try:
        descriptor = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_TRUNC | _BINARY, 0o666)
        try:
            _write_all(descriptor, content)
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
        with contextlib.suppress(FileNotFoundError):
            temporary.chmod(stat.S_IMODE(target.stat().st_mode))
    except OSError:
        with contextlib.suppress(OSError):
            temporary.unlink()
        raise
    return temporary


def put_in_place(temporary: Path, target: Path) -> None:
    """Give a staged file its target's name and flush the folder."""
    target = target.resolve()
    for attempt in range(_RETRIES):
        try:
            temporary.replace(target)
            break
        except PermissionError:
            if not _WINDOWS or attempt == _RETRIES - 1:
                raise
            time.sleep(0.05)
    sync_folder(target.parent)


def write_whole(target: Path, content: bytes) -> None:
    """Write a file so that at every moment it has its old or its new content, whole."""
    put_in_place(stage(target, content), target)


def remove(target: Path) -> None:
    """Remove a file if it is there, and flush its folder."""
    with contextlib.suppress(FileNotFoundError):
        target.unlink()
        sync_folder(target.parent)


def make_folder(path: Path) -> None:
    """Make a folder, with those above it, and flush the names."""
    if not path.is_dir():
        make_folder(path.parent)
        path.mkdir(exist_ok=True)
        sync_folder(path.parent)


def append(target: Path, line: bytes) -> None:
    """Add bytes to the end of a file, making it if need be, and flush it."""
    new = not target.exists()
    descriptor = os.open(target, os.O_WRONLY | os.O_CREAT | os.O_APPEND | _BINARY, 0o666)
    try:
        _write_all(descriptor, line)
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
    if new:
        sync_folder(target.parent)


def sync_folder(path: Path) -> None:
    """Flush a folder's names to the disk where the system can."""
    if _WINDOWS:
        return
    descriptor = os.open(path, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def _write_all(descriptor: int, content: bytes) -> None:
    view = memoryview(content)
    while view:
        view = view[os.write(descriptor, view) :]
