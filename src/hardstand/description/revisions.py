"""Revisions of the aeroplane: every state of its files by number, with undo and redo.

A revision is the full text of all TOML files. An edit made outside the program becomes one when it
is seen. Undo and redo write an earlier text as a new revision, so nothing is ever lost by them.
"""

from __future__ import annotations

import getpass
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime

from hardstand.changes import AnyChange
from hardstand.description.history_store import HistoryStore, Revision, Step
from hardstand.description.safe_files import sha256_of
from hardstand.description.storage import Folder, digest_of
from hardstand.description.write import apply_to_texts

__all__ = ["Edited", "NothingToUndoError", "Revision", "edit", "history", "record", "redo", "undo"]

OUTSIDE = "edited outside the program"
FIRST = "as first found"


class NothingToUndoError(LookupError):
    """There is no earlier (or, for redo, no later) text, or the history of it is lost."""


Tried = tuple[Mapping[str, str], Mapping[str, str]]  # texts, and those that changes alter in them


@dataclass(frozen=True, slots=True)
class Edited:
    """What an edit left: all texts, and the revision, which is None where history can't be kept.

    `trouble` says why it can't; the files are written all the same.
    """

    texts: Mapping[str, str]
    revision: Revision | None
    trouble: str = ""


def edit(
    folder: Folder, changes: Iterable[AnyChange], why: str, who: str = "", tried: Tried | None = None
) -> Edited:
    """Make changes in a folder's files: read, apply, write, record, with no one else writing.

    An outside edit that was not seen yet is recorded first. `tried` is what the same changes made of
    texts; where those stand on the disk still, it is what is written. Raises what `apply_to_texts`
    and `Folder.write` raise, with nothing written.
    """
    with folder.locked():
        before = folder.texts()
        _record(folder, before, OUTSIDE, who)
        known = tried is not None and tried[0] == before
        new = tried[1] if tried is not None and known else apply_to_texts(before, changes)
        folder.write(new)
        return _record(folder, {**before, **new}, why, who)


def record(folder: Folder, why: str = OUTSIDE, who: str = "") -> Edited:
    """Make what is on the disk a revision, unless it is the latest one already.

    Call it after `Folder.write` with the reason, and on opening with none. Never raises because of
    the history; raises UnreadableError where the files themselves can't be read.
    """
    texts = folder.texts()
    try:
        with folder.locked():
            return _record(folder, folder.texts(), why, who)
    except OSError as error:
        return Edited(texts, None, str(error))


def history(folder: Folder) -> list[Revision]:
    """All revisions that can still be read, oldest first."""
    return _store(folder).revisions()


def undo(folder: Folder, who: str = "") -> Edited:
    """Write the text before the latest edit as a new revision; again, the one before that.

    An outside edit is recorded first and is then what is undone. Raises NothingToUndoError.
    """
    return _step(folder, "undo", who)


def redo(folder: Folder, who: str = "") -> Edited:
    """Write the text that the latest undo took away as a new revision, until there is a new edit.

    Raises NothingToUndoError.
    """
    return _step(folder, "redo", who)


def _step(folder: Folder, step: Step, who: str) -> Edited:
    with folder.locked():
        texts = folder.texts()
        seen = _record(folder, texts, OUTSIDE, who)
        if seen.trouble:  # the present text would be lost by writing over it
            raise NothingToUndoError(f"the history can't be written: {seen.trouble}")
        store = _store(folder)
        done, undone = _stacks(store.revisions())
        wanted = (done[-2] if len(done) > 1 else None) if step == "undo" else next(
            reversed(undone), None)
        earlier = store.texts(wanted) if wanted else None
        if wanted is None or earlier is None:
            what = "that text is lost" if wanted else f"there is nothing to {step}"
            raise NothingToUndoError(what)
        gone = {name: None for name in texts if name not in earlier}
        folder.write({**earlier, **gone})
        why = done[-1].why if step == "undo" else wanted.why
        return _record(folder, earlier, f"{step}: {why}", who, step, wanted.number)


def _stacks(revisions: list[Revision]) -> tuple[list[Revision], list[Revision]]:
    """The edits that are in force, oldest first, and those that redo would bring back, next last.

    Steps that no longer fit, because lines of the index are lost, count as edits.
    """
    done: list[Revision] = []
    undone: list[Revision] = []
    for one in revisions:
        if one.step == "undo" and len(done) > 1 and done[-2].number == one.of:
            undone.append(done.pop())
        elif one.step == "redo" and undone and undone[-1].number == one.of:
            done.append(undone.pop())
        else:
            done.append(one)
            undone.clear()
    return done, undone


def _record(folder: Folder, texts: Mapping[str, str], why: str, who: str,
            step: Step = "edit", of: int = 0) -> Edited:
    store = _store(folder)
    revisions = store.revisions()
    digest = digest_of(texts)
    if revisions and revisions[-1].sha256 == digest and step == "edit":
        return Edited(texts, revisions[-1])
    if not texts and not revisions:
        return Edited(texts, None)
    number = max((one.number for one in revisions), default=0) + 1
    when = datetime.now(UTC).isoformat(timespec="seconds")
    files = {name: sha256_of(text.encode()) for name, text in texts.items()}
    why = FIRST if why == OUTSIDE and not revisions else why
    revision = Revision(number, digest, files, who or _user(), why, when, step, of or number)
    try:
        store.add(revision, texts)
    except OSError as error:
        return Edited(texts, None, str(error))
    return Edited(texts, revision)


def _store(folder: Folder) -> HistoryStore:
    return HistoryStore(folder.state / "history")


def _user() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return ""
