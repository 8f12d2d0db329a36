"""The aeroplane's folder: its TOML files as one set of texts, read and written as a whole.

`aeroplane.toml`, `measurements.toml` and `parts/*.toml` are the builder's; `.hardstand/` holds what
the program needs and can do without. Whatever happens to the process or the machine, the set found
on the next opening is the one before a write or the one after it, never a mixture.
"""

from __future__ import annotations

import contextlib
import re
from collections.abc import Iterable, Mapping
from functools import cached_property
from hashlib import sha256
from pathlib import Path

from hardstand.description.journal import JOURNAL, Pending, encoded, read_journal
from hardstand.description.lock import FolderBusyError, FolderLock
from hardstand.description.problems import Problem, UnreadableError
from hardstand.description.safe_files import (
    make_folder,
    put_in_place,
    remove,
    sha256_of,
    stage,
    write_whole,
)

__all__ = ["ChangedOnDiskError", "Folder", "FolderBusyError", "UnfinishedWriteError", "digest_of"]

_NAME = re.compile(r"aeroplane\.toml|measurements\.toml|parts/[^./\\:\0][^/\\:\0]*\.toml")
_BOM = "\N{ZERO WIDTH NO-BREAK SPACE}"
_CALM_READS = 20


class ChangedOnDiskError(RuntimeError):
    """A file that was to be written is no longer what was read; nothing has been written."""

    def __init__(self, names: Iterable[str]) -> None:
        self.names = tuple(sorted(names))
        super().__init__(f"{', '.join(self.names)} changed since it was read; read it again first")


class UnfinishedWriteError(OSError):
    """A write was decided but the system refused its last step; the next opening finishes it."""


def digest_of(texts: Mapping[str, str]) -> str:
    """The SHA-256 that names a set of texts, whatever their order.

    >>> digest_of({"a": "1", "b": "2"}) == digest_of({"b": "2", "a": "1"})
    True
    """
    whole = sha256()
    for name in sorted(texts):
        whole.update(name.encode() + b"\0" + sha256(texts[name].encode()).digest())
    return whole.hexdigest()


class Folder:
    """One aeroplane's folder. An instance remembers what it read, and overwrites nothing else.

    `path` is the folder, or its `aeroplane.toml`. A folder that does not exist has no texts.
    """

    def __init__(self, path: Path | str) -> None:
        given = Path(path)
        self.path = given.parent if given.name == "aeroplane.toml" and given.is_file() else given
        self.state = self.path / ".hardstand"
        self._seen: dict[str, bytes] = {}

    @cached_property
    def _lock(self) -> FolderLock:
        return FolderLock(self.state / "lock")

    def locked(self) -> FolderLock:
        """A context in which no one else writes; it may be entered again inside."""
        if self.state.exists() and not self.state.is_dir():
            self.state.replace(self.state.with_name(".hardstand-set-aside"))
        make_folder(self.state)
        return self._lock

    def texts(self) -> dict[str, str]:
        """All TOML files by name (`parts/` with a slash), as one consistent set.

        Finishes a write that was cut off. Newlines stay as they are; a byte order mark is left out
        here and put back on writing. Raises UnreadableError with every file that can't be read.
        """
        contents = self._contents()
        texts = _decoded(contents)
        self._seen = contents
        return texts

    def digest(self) -> str:
        """The SHA-256 of all texts as they are on the disk now."""
        return digest_of(_decoded(self._contents()))

    def write(self, texts: Mapping[str, str | None]) -> None:
        """Write the given files, all or none (None removes one); files not given stay.

        Returns when the disk has them. Raises ChangedOnDiskError where a file is not as this
        instance last read it (or exists and was never read), OSError where the system refuses (then
        nothing is changed), and UnfinishedWriteError where it refuses after the decision.
        """
        for name in texts:
            if not _NAME.fullmatch(name):
                raise ValueError(f"{name} is not a file of an aeroplane's folder")
        make_folder(self.path)
        with self.locked():
            self._finish_pending()
            found = {name: self._content(name) for name in texts}
            changed = [name for name in texts if found[name] != self._seen.get(name)]
            if changed:
                raise ChangedOnDiskError(changed)
            new = {name: self._encoded(text, found[name]) for name, text in texts.items()}
            todo = {name: Pending(_sha_or_none(found[name]), content)
                    for name, content in new.items() if content != found[name]}
            self._write_all(todo)
            for name, content in new.items():
                if content is None:
                    self._seen.pop(name, None)
                else:
                    self._seen[name] = content

    def _contents(self) -> dict[str, bytes]:
        """The contents of all files from a moment in which no one replaced any of them."""
        for _ in range(_CALM_READS):
            pending = self._finish_pending()
            before = self._signature()
            contents = self._read(before)
            if self._signature() == before and (self._pending() or {}) == pending:
                for name, one in pending.items():
                    if one.allows(contents.get(name)):
                        contents[name] = one.new
                return {name: found for name, found in contents.items() if found is not None}
        with self.locked():
            self._finish_pending()
            contents = self._read(self._signature())
            return {name: found for name, found in contents.items() if found is not None}

    def _read(self, names: Iterable[str]) -> dict[str, bytes | None]:
        return {name: self._content(name) for name in names}

    def _write_all(self, files: Mapping[str, Pending]) -> None:
        staged: dict[str, Path | None] = {}
        try:
            for name, one in files.items():
                make_folder((self.path / name).parent)
                staged[name] = None if one.new is None else stage(self.path / name, one.new)
            if len(files) > 1:
                write_whole(self.state / JOURNAL, encoded(files))
        except OSError:
            for temporary in filter(None, staged.values()):
                with contextlib.suppress(OSError):
                    temporary.unlink()
            raise
        try:
            for name, ready in staged.items():
                if ready is None:
                    remove(self.path / name)
                else:
                    put_in_place(ready, self.path / name)
            if len(files) > 1:
                remove(self.state / JOURNAL)
        except OSError as error:
            if len(files) == 1:
                raise
            raise UnfinishedWriteError(f"writing stopped half-way ({error}); it is finished when "
                                       "the folder is opened again") from error

    def _finish_pending(self) -> dict[str, Pending]:
        """Finish what a journal holds; returns it where this process may not write here."""
        pending = self._pending()
        if pending is None:
            return {}
        try:
            with self.locked():
                pending = self._pending()
                for name, one in (pending or {}).items():
                    if not one.allows(self._content(name)):
                        continue  # someone has edited it since: theirs is the later word
                    if one.new is None:
                        remove(self.path / name)
                    else:
                        make_folder((self.path / name).parent)
                        write_whole(self.path / name, one.new)
                if pending == {}:  # damaged: nothing can be made of it, but it is not thrown away
                    (self.state / JOURNAL).replace(self.state / f"damaged-{JOURNAL}")
                remove(self.state / JOURNAL)
        except OSError:
            return pending or {}
        return {}

    def _pending(self) -> dict[str, Pending] | None:
        with contextlib.suppress(NotADirectoryError, IsADirectoryError, PermissionError):
            return read_journal(self.state / JOURNAL)
        return None

    def _signature(self) -> dict[str, tuple[int, int, int]]:
        signature = {}
        parts = [f"parts/{path.name}" for path in (self.path / "parts").glob("*.toml")]
        for name in ("aeroplane.toml", "measurements.toml", *sorted(parts)):
            with contextlib.suppress(FileNotFoundError, NotADirectoryError):
                seen = (self.path / name).stat()
                if _NAME.fullmatch(name):
                    signature[name] = (seen.st_mtime_ns, seen.st_size, seen.st_ino)
        return signature

    def _content(self, name: str) -> bytes | None:
        try:
            return (self.path / name).read_bytes()
        except FileNotFoundError:
            return None
        except OSError as error:
            reason = error.strerror or str(error)
            raise UnreadableError([Problem(name, None, "", f"the file can't be read: {reason}",
                                           hint="check its permissions")]) from None

    def _encoded(self, text: str | None, found: bytes | None) -> bytes | None:
        if text is None:
            return None
        mark = _BOM if found is not None and found.startswith(_BOM.encode()) else ""
        return (mark + text).encode()


def _sha_or_none(content: bytes | None) -> str | None:
    return None if content is None else sha256_of(content)


def _decoded(contents: Mapping[str, bytes]) -> dict[str, str]:
    texts, problems = {}, []
    for name in sorted(contents):
        try:
            texts[name] = contents[name].decode().removeprefix(_BOM)
        except UnicodeDecodeError as error:
            line = contents[name].count(b"\n", 0, error.start) + 1
            found = repr(contents[name][error.start : error.end])[2:-1]
            problems.append(Problem(name, line, "", "this is not text in UTF-8", found, "UTF-8",
                                    "save the file with the encoding UTF-8"))
    if problems:
        raise UnreadableError(problems)
    return texts
