"""The aeroplane's folder as a builder names it, with a hint where it is another one."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from hardstand.cli.refusal import UNREADABLE, Refusal, one_of

if TYPE_CHECKING:
    from hardstand.description.storage import Folder

MAIN = "aeroplane.toml"


def open_at(folder: Path) -> Folder:
    """The folder as it is read and written; raises Refusal where there is no aeroplane in it."""
    from hardstand.description.storage import Folder

    must_hold_aeroplane(folder)
    return Folder(folder)


def must_hold_aeroplane(folder: Path) -> None:
    """Raises Refusal with what to do where a folder holds no aeroplane."""
    if (folder / MAIN).exists() or (folder.name == MAIN and folder.is_file()):
        return
    if not folder.is_dir():
        what = "is a file" if folder.exists() else "does not exist"
        raise Refusal(f"The folder {folder} {what}.", _others(folder.parent), UNREADABLE)
    here = "this folder" if folder == Path() else str(folder)
    raise Refusal(f"There is no {MAIN} in {here}.", _others(folder), UNREADABLE)


def _others(folder: Path) -> str:
    """What to do instead: the aeroplanes near by, else how to begin one."""
    try:
        near = sorted(one.parent for one in folder.glob(f"*/{MAIN}"))
    except OSError:
        near = []
    if near:
        return f"Did you mean {one_of(str(one) for one in near[:3])}?"
    return "Begin one with `hardstand new DIR`, or look at one with `hardstand demo`."
