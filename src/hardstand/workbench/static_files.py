"""The files that pages are made with: the look, and the workbench's own style and script."""

from __future__ import annotations

from functools import cache
from hashlib import sha256
from pathlib import Path

import hardstand

HERE = Path(__file__).parent / "static"
LOOK = Path(hardstand.__file__).parent / "data" / "look"
FOLDERS = {"/static": HERE, "/look": LOOK}


@cache
def stamped(path: str) -> str:
    """The address of a file, with a stamp that changes with it, so that no browser keeps an old one."""
    mount, _, name = path.strip("/").partition("/")
    content = (FOLDERS[f"/{mount}"] / name).read_bytes()
    return f"{path}?{sha256(content).hexdigest()[:10]}"
