"""Where earlier texts are kept: contents by their SHA-256, and an index with one line a revision.

All of it is expendable. What is damaged or missing is passed over, and never stops anyone from
reading or writing the aeroplane.
"""

from __future__ import annotations

import json
import zlib
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Literal

from hardstand.description.safe_files import append, make_folder, sha256_of, write_whole

Step = Literal["edit", "undo", "redo"]
_STEPS: tuple[Step, ...] = ("edit", "undo", "redo")


@dataclass(frozen=True, slots=True)
class Revision:
    """One state of all TOML files: running number, SHA-256 of the set, who, why and when (UTC).

    `files` is the SHA-256 of each file's text. `of` is the revision whose text this one has again,
    its own number for an edit.
    """

    number: int
    sha256: str
    files: Mapping[str, str]
    who: str
    why: str
    when: str
    step: Step = "edit"
    of: int = 0

    @property
    def name(self) -> str:
        """The number as it is written.

        >>> Revision(14, "", {}, "", "", "").name
        'r14'
        """
        return f"r{self.number}"


class HistoryStore:
    """The folder `.hardstand/history`: `texts/` holds contents, `index` the revisions."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.index = path / "index"

    def revisions(self) -> list[Revision]:
        """All revisions that can be read, oldest first; damaged lines are passed over."""
        try:
            lines = self.index.read_bytes().split(b"\n")
        except OSError:
            return []
        found = (_from_line(line) for line in lines)
        return [revision for revision in found if revision is not None]

    def add(self, revision: Revision, texts: Mapping[str, str]) -> None:
        """Keep a revision and its texts, on the disk before this returns. Raises OSError."""
        make_folder(self.path / "texts")
        for name, text in texts.items():
            place = self.path / "texts" / revision.files[name]
            if _content(place) != text:
                write_whole(place, zlib.compress(text.encode()))
        body = json.dumps(asdict(revision), ensure_ascii=False).encode()
        line = sha256_of(body)[:16].encode() + b" " + body + b"\n"
        # A line that was cut off by a crash must not swallow this one.
        with suppress(FileNotFoundError):
            if not self.index.read_bytes().endswith(b"\n"):
                line = b"\n" + line
        append(self.index, line)

    def texts(self, revision: Revision) -> dict[str, str] | None:
        """The texts of a revision, or None where one of them is lost or damaged."""
        texts = {}
        for name, sha256 in revision.files.items():
            text = _content(self.path / "texts" / sha256)
            if text is None or sha256_of(text.encode()) != sha256:
                return None
            texts[name] = text
        return texts


def _content(place: Path) -> str | None:
    try:
        return zlib.decompress(place.read_bytes()).decode()
    except (OSError, zlib.error, UnicodeDecodeError):
        return None


def _from_line(line: bytes) -> Revision | None:
    checksum, _, body = line.partition(b" ")
    if not body or checksum.decode(errors="replace") != sha256_of(body)[:16]:
        return None
    try:
        revision = Revision(**json.loads(body))
    except (ValueError, TypeError):
        return None
    return revision if revision.step in _STEPS else None
