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
from hardstand.workbench.outcome import Outcome, refused, stale, unreadable

Act = Callable[[Bench, Mapping[str, str]], Outcome]


def answered(act: Act) -> Act:
    """The same action, answering a refusal as an outcome; only a fault of the program still raises."""

    def act_and_answer(bench: Bench, values: Mapping[str, str]) -> Outcome:
        at = values.get("address", "")
        try:
            return act(bench, values)
        except StaleChange as error:
            return stale(error)
        except UnreadableError as error:
            return unreadable(error, at)
        except MeasureError as error:
            return refused(str(error), error.hint, at, 422)
        except (NotWritableError, NothingToUndoError, ChangedOnDiskError, AddressError) as error:
            return refused(sentence(str(error)), at=at)
        except OSError as error:  # a full disk, a busy folder
            reason = (error.strerror or str(error)).lower()
            return refused(f"the system says: {reason}.", at=at, status=507)

    return act_and_answer
