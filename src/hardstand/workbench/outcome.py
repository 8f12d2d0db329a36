"""What an edit came to, for the page that asked for it: findings gone and come, or why it was refused."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hardstand.description.problems import Problem, UnreadableError
from hardstand.description.revisions import Edited
from hardstand.description.write import StaleChange
from hardstand.views.changes import difference, with_other_figures
from hardstand.views.notice import tally, verdict
from hardstand.views.number import value_in_file
from hardstand.workbench.since import ChangedSinceError

Findings = Sequence[Mapping[str, Any]]
MOST = 5  # values of a description that differs, told with what they were and are


@dataclass(frozen=True)
class Outcome:
    """One answer to an edit. `made` says whether anything was written.

    `told` are (label, text) pairs under the first sentence, such as both values of a stale edit;
    `problems` are why it could not be read with the edit, `at` the address that was edited.
    """

    made: bool
    words: str
    status: int = 200
    told: tuple[tuple[str, str], ...] = ()
    gone: Findings = ()
    came: Findings = ()
    other: Findings = ()
    was: str = ""
    now: str = ""
    verdict: str = ""
    at: str = ""
    problems: tuple[Problem, ...] = ()


def done(before: Mapping[str, Any] | None, after: Mapping[str, Any] | None, edited: Edited, why: str) -> Outcome:
    """What a written edit did to the findings; `before` or `after` is None where it can't be read."""
    name = edited.revision.name if edited.revision else ""
    said = why or (edited.revision.why if edited.revision else "")
    words = f"Written as {name}: {said}." if name else f"Written: {said}. {edited.trouble}"
    if after is None:
        return Outcome(made=True, words=words, now="It cannot be read as it is now.")
    if before is None:
        return Outcome(made=True, words=words, now=tally(after), verdict=verdict(after))
    return Outcome(
        made=True, words=words, gone=difference(before, after), came=difference(after, before),
        other=with_other_figures(before, after), was=tally(before), now=tally(after),
        verdict=verdict(after),
    )  # fmt: skip


def refused(words: str, hint: str = "", at: str = "", status: int = 409) -> Outcome:
    """Nothing was written, and why."""
    return Outcome(made=False, words=f"Nothing was changed: {words}", status=status, at=at,
                   told=(("Do this", hint),) if hint else ())  # fmt: skip


def unreadable(error: UnreadableError, at: str = "") -> Outcome:
    """The refusal of an edit with which the aeroplane could not be read."""
    words = "Nothing was changed: with this it could not be read."
    return Outcome(made=False, words=words, status=422, at=at, problems=error.problems)


def stale(error: StaleChange) -> Outcome:
    """The refusal of an edit made for another value than the one that stands there, with both."""
    told = (("You saw", value_in_file(error.expected)), ("It is now", value_in_file(error.found)))
    return Outcome(made=False, words=f"Nothing was changed: {error.address} has changed meanwhile.",
                   status=409, told=told, at=error.address)  # fmt: skip


def changed_since(error: ChangedSinceError) -> Outcome:
    """The refusal of what was found for another description, with both values of what differs."""
    told = tuple((one.address, one.words) for one in error.differences[:MOST])
    more = len(error.differences) - len(told)
    rest = (("and", f"{more} more"),) if more else ()
    return Outcome(
        made=False, words="Nothing was changed: the description is no longer what this was found for.",
        status=409, told=(*told, *rest), at=error.differences[0].address,
    )  # fmt: skip


def begun(words: str) -> Outcome:
    """Something was begun that writes nothing."""
    return Outcome(made=True, words=words)
