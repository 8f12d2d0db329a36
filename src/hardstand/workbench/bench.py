"""The aeroplane on the bench: what is read and assessed now, and the few ways to alter it.

One thing at a time: whoever alters holds the lock, and what is shown is one frozen value that never
changes under a page that is being made.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment, Memory, assess
from hardstand.changes import AnyChange
from hardstand.description.problems import Problem, UnreadableError
from hardstand.description.revisions import Edited, edit, record, redo, undo
from hardstand.description.storage import Folder, digest_of
from hardstand.description.write import apply_to_texts
from hardstand.routing import routed
from hardstand.stages import stages
from hardstand.views.json_form import assessment_form
from hardstand.workbench.long import LongWork
from hardstand.workbench.long.tasks import compare_options, seek_layouts
from hardstand.workbench.outcome import Outcome, done
from hardstand.workbench.since import ChangedSinceError, Difference, differences
from hardstand.workbench.turns import Turns
from hardstand.workspace import Workspace, opened


@dataclass(frozen=True)
class Held:
    """One state of the folder: read, built, assessed. `digest` names its texts."""

    workspace: Workspace
    asbuilt: AsBuilt
    assessment: Assessment
    form: Mapping[str, Any]
    digest: str
    revision: str
    when: str = ""


@dataclass(frozen=True)
class Unread:
    """A state of the folder that cannot be read, with every reason."""

    texts: Mapping[str, str]
    problems: tuple[Problem, ...]
    digest: str
    revision: str = ""


@dataclass(frozen=True)
class _Trial:
    """What changes make of a state: as they are written, the texts that they alter, the whole read."""

    of: Held
    asked: Sequence[AnyChange]
    changes: Sequence[AnyChange]
    texts: Mapping[str, str]
    workspace: Workspace


class Bench:
    """One aeroplane's folder, kept read and assessed. `options` are laid over it.

    `seeking` looks for layouts and `comparing` puts options side by side, each in its own process.
    """

    def __init__(self, folder: Folder, options: Sequence[str] = ()) -> None:
        self.folder, self.options = folder, tuple(options)
        self._turns = Turns()
        self._memory = Memory()
        self._now: Held | Unread | None = None
        self._last: _Trial | None = None
        self.seeking, self.comparing = LongWork(seek_layouts), LongWork(compare_options)
        self.refresh()

    def close(self) -> None:
        """End what is still at work."""
        self.seeking.close()
        self.comparing.close()

    @property
    def now(self) -> Held | Unread:
        """What is shown now."""
        assert self._now is not None  # the constructor has read it
        return self._now

    def refresh(self) -> bool:
        """Look at the disk; an edit from outside is read, recorded and assessed. True where there was one."""
        with self._turns.lock:
            try:
                digest, texts = self._texts()
            except UnreadableError as error:  # a file that is no text at all
                problems = error.problems
                same = isinstance(self._now, Unread) and self._now.problems == problems
                self._now = Unread({}, problems, "")
                return not same
            if self._now is not None and self._now.digest == digest:
                return False
            self._now = self._seen(texts, record(self.folder))
            return True

    def change(self, changes: Sequence[AnyChange], why: str, since: Held | None = None) -> Outcome:
        """Make changes as one revision and assess what they left.

        `since` is the state that they were found for, where they hold for no other. Raises as
        `Workspace.change` does, ChangedSinceError where a value is another one than in that state, and
        UnreadableError where the folder can't be read now. What has been read to try them is what is
        shown after them, so that nothing is read twice.
        """
        with self._turns.ahead():
            self.refresh()
            held = self.held()
            if since is not None and (found := self.changed_since(since, held)):
                raise ChangedSinceError(found)
            trial = self._with(held, changes)
            edited = edit(self.folder, trial.changes, why, tried=(held.workspace.texts, trial.texts))
            same = edited.texts == trial.workspace.texts
            self._now = after = self._seen(edited.texts, edited, trial.workspace if same else None)
            return done(held.form, getattr(after, "form", None), edited, why)

    @staticmethod
    def changed_since(before: Held, now: Held) -> list[Difference]:
        """The values that are others now than in an earlier state; comments and layout are none."""
        if before.digest == now.digest:
            return []
        return differences(before.workspace.read.raw, now.workspace.read.raw)

    def step(self, back: bool) -> Outcome:
        """Undo (`back`) or redo; raises NothingToUndoError."""
        with self._turns.lock:
            self.refresh()
            before = getattr(self.now, "form", None)
            edited = (undo if back else redo)(self.folder)
            self._now = after = self._seen(edited.texts, edited)
            return done(before, getattr(after, "form", None), edited, "")

    def put_text(self, name: str, text: str, why: str) -> Outcome:
        """Write one whole file as the builder typed it, if the aeroplane can be read with it.

        Raises UnreadableError with nothing written.
        """
        with self._turns.lock:
            self.refresh()
            before = getattr(self.now, "form", None)
            texts = {**self.now_texts(), name: text}
            opened(self.folder, texts, self.options)
            with self.folder.locked():
                self.folder.write({name: text})
                edited = record(self.folder, why)
            self._now = after = self._seen(edited.texts, edited)
            return done(before, getattr(after, "form", None), edited, why)

    def tried(self, changes: Sequence[AnyChange]) -> Held:
        """What the aeroplane would be with changes; nothing is written.

        Raises as `change` does, and SupersededError where a change came that is to be written.
        """
        held = self.held()
        trial = self._with(held, changes)
        with self._turns.lock:
            return self._assessed(trial.workspace, held.revision, progress=self._turns.give_way)

    def _with(self, held: Held, changes: Sequence[AnyChange]) -> _Trial:
        """What changes make of a state. What was tried last is not read again: a drag ends where it was."""
        last = self._last
        if last is not None and last.of is held and last.asked == [*changes]:
            return last
        texts = held.workspace.texts
        made = routed(changes, held.workspace.base, self.options)
        new = apply_to_texts(texts, made)
        workspace = opened(self.folder, {**texts, **new}, self.options)
        self._last = found = _Trial(held, [*changes], made, new, workspace)
        return found

    def held(self) -> Held:
        """What is shown now, where it can be read; raises UnreadableError where not."""
        if isinstance(self.now, Unread):
            raise UnreadableError(self.now.problems)
        return self.now

    def now_texts(self) -> Mapping[str, str]:
        """The files' texts as they were last seen."""
        return self.now.texts if isinstance(self.now, Unread) else self.now.workspace.texts

    def _texts(self) -> tuple[str, dict[str, str]]:
        texts = self.folder.texts()
        return digest_of(texts), texts

    def _seen(
        self, texts: Mapping[str, str], edited: Edited, known: Workspace | None = None
    ) -> Held | Unread:
        """Texts that stand on the disk, assessed; `known` is what they were read as already."""
        revision = edited.revision.name if edited.revision else ""
        try:
            workspace = known or opened(self.folder, texts, self.options)
            return self._assessed(workspace, revision, edited.revision.when if edited.revision else "")
        except UnreadableError as error:
            return Unread(texts, error.problems, digest_of(texts), revision)

    def _assessed(
        self, workspace: Workspace, revision: str, when: str = "",
        progress: Callable[[str], None] | None = None,
    ) -> Held:  # fmt: skip
        asbuilt = workspace.as_built()
        assessment = assess(asbuilt, stages(), self._memory, progress)
        form = assessment_form(assessment, workspace.options)
        return Held(workspace, asbuilt, assessment, form, digest_of(workspace.texts), revision, when)
