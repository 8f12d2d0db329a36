"""Whole assessments remembered from one process to the next, as plain JSON, by content.

The key covers every file of the description, the options and the program itself, so that what is
remembered can only be what would be computed again. Everything here is expendable: a file that is
missing, cut short or altered is passed over, and a folder that cannot be written is left alone.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import hardstand

FOLDER = Path(".hardstand") / "remembered"
KEPT = 8  # the latest few: going back and forth between options stays quick


def key_of(texts: Mapping[str, str], options: Sequence[str]) -> str:
    """The name of an assessment: SHA-256 over files, options in their order, and the program.

    >>> key_of({"a.toml": "x"}, ()) == key_of({"a.toml": "y"}, ())
    False
    """
    digest = hashlib.sha256()
    for piece in (program_image(), str(len(options)), *options):
        digest.update(piece.encode() + b"\0")
    for name in sorted(texts):
        text = texts[name].encode("utf-8", "surrogatepass")
        digest.update(f"{name}\0{len(text)}\0".encode("utf-8", "surrogatepass") + text)
    return digest.hexdigest()


def program_image() -> str:
    """The program as it stands: version, and size and time of every file of the package.

    The times matter where the program is worked on in place, and they also keep an assessment that
    came with a folder from elsewhere from being taken for one of this machine's.
    """
    root = Path(hardstand.__file__).parent
    stamps = sorted(_stamps(root))
    return f"{hardstand.__version__}\n" + "\n".join(stamps)


def _stamps(folder: Path) -> list[str]:
    found: list[str] = []
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.name == "__pycache__":
                continue
            if entry.is_dir():
                found += _stamps(Path(entry.path))
            else:
                status = entry.stat()
                found.append(f"{entry.path} {status.st_size} {status.st_mtime_ns}")
    return found


def recall(folder: Path, key: str) -> dict[str, Any] | None:
    """The form remembered under a key, or None where there is none that can be trusted."""
    try:
        kept = json.loads((folder / FOLDER / f"{key}.json").read_bytes())
    except (OSError, ValueError, RecursionError):
        return None
    form = kept.get("form") if isinstance(kept, dict) else None
    if not isinstance(form, dict) or kept.get("sha256") != _digest(form):
        return None
    return form


def remember(folder: Path, key: str, form: Mapping[str, Any]) -> None:
    """Keep a form under its key, whole or not at all, and let go of all but the latest few."""
    home = folder / FOLDER
    part = home / f"{key}.{os.getpid()}.part"
    text = json.dumps({"sha256": _digest(form), "form": form}, ensure_ascii=True)
    try:
        home.mkdir(parents=True, exist_ok=True)
        part.write_text(text, encoding="ascii")
        part.replace(home / f"{key}.json")
        for old in sorted(home.glob("*.json"), key=lambda one: -one.stat().st_mtime)[KEPT:]:
            old.unlink(missing_ok=True)
    except OSError:
        part.unlink(missing_ok=True) if home.is_dir() else None


def _digest(form: Mapping[str, Any]) -> str:
    return hashlib.sha256(json.dumps(form, sort_keys=True).encode()).hexdigest()
