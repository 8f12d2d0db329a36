"""Several files changed as one: a journal that says what is to be, until it is.

The journal is itself one file written whole. From the moment it has its name the new texts count,
and whoever opens the folder next finishes the work; before that moment the old ones do.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from hardstand.description.safe_files import sha256_of

JOURNAL = "journal.json"


@dataclass(frozen=True, slots=True)
class Pending:
    """One file of a journal: SHA-256 of the old content (None: no file), and the new content."""

    old_sha256: str | None
    new: bytes | None

    def allows(self, found: bytes | None) -> bool:
        """Whether what is there now is the old or the new content, and no one's later edit."""
        return found == self.new or (sha256_of(found) if found is not None else None) == self.old_sha256


def encoded(files: Mapping[str, Pending]) -> bytes:
    """A journal as bytes: its own SHA-256 on the first line, then JSON."""
    body = json.dumps(
        {
            name: [one.old_sha256, None if one.new is None else one.new.decode()]
            for name, one in files.items()
        }
    ).encode()
    return sha256_of(body).encode() + b"\n" + body


def read_journal(path: Path) -> dict[str, Pending] | None:
    """The journal at a path; None where there is none, {} where it is damaged."""
    try:
        checksum, _, body = path.read_bytes().partition(b"\n")
    except FileNotFoundError:
        return None
    if checksum.decode(errors="replace") != sha256_of(body):
        return {}
    return {
        name: Pending(old, None if new is None else new.encode())
        for name, (old, new) in json.loads(body).items()
    }
