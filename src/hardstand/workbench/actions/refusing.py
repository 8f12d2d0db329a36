"""Every way in which an edit can be refused becomes an outcome; nothing is half done."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from hardstand.asbuilt.measuring import MeasureError
from hardstand.changes import AddressError
from hardstand.description.problems import UnreadableError
from hardstand.description.revisions import NothingToUndoError
from hardstand.description.storage import ChangedOnDiskError
from hardstand.description.write import NotWritableError, StaleChange
from hardstand.views.words import sentence
from hardstand.workbench.bench import Bench
from hardstand.workbench.long import AtWorkError
from hardstand.workbench.outcome import Outcome, changed_since, refused, stale, unreadable
from hardstand.workbench.since import ChangedSinceError

Act = Callable[[Bench, Mapping[str, str]], Outcome]


EXPECTED = (
    StaleChange, ChangedSinceError, AtWorkError, UnreadableError, MeasureError, NotWritableError,
    NothingToUndoError, ChangedOnDiskError, AddressError, OSError,
)  # fmt: skip


def answered(act: Act) -> Act:
    """The same action, answering a refusal as an outcome; only a fault of the program still raises."""

    def act_and_answer(bench: Bench, values: Mapping[str, str]) -> Outcome:
        try:
            return act(bench, values)
        except EXPECTED as error:
            return refusal(error, values.get("address", ""))

    return act_and_answer


def refusal(error: Exception, at: str) -> Outcome:
    """The outcome that says why something was refused; `at` is the address that it was about."""
    match error:
        case StaleChange():
            found = stale(error)
        case ChangedSinceError():
            found = changed_since(error)
        case AtWorkError():
            found = refused("this is being worked on already.", "Wait for it, or stop it first.")
        case UnreadableError():
            found = unreadable(error, at)
        case MeasureError():
            found = refused(str(error), error.hint, at, 422)
        case OSError():  # a full disk, a busy folder
            reason = (error.strerror or str(error)).lower()
            found = refused(f"the system says: {reason}.", at=at, status=507)
        case _:
            found = refused(sentence(str(error)), at=at)
    return found
