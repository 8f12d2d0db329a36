"""The pages for what cannot be shown: an aeroplane that can't be read, an address that is none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hardstand.description.problems import Problem, UnreadableError
from hardstand.views.notice import NOTICE
from hardstand.workbench.asked import Asked, NoSuchPageError
from hardstand.workbench.outcome import Outcome
from hardstand.workbench.pages.text import named
from hardstand.workbench.preferences import Preferences


@dataclass(frozen=True)
class TroublePage:
    """What is wrong, with every problem and its line, or with one sentence and what to do."""

    heading: str
    hint: str
    problems: Sequence[Problem]
    files: Sequence[str]
    address: str
    revision: str
    aeroplane: str
    outcome: Outcome | None
    preferences: Preferences
    notice: str = NOTICE


def unreadable(asked: Asked, error: UnreadableError) -> TroublePage:
    """The page in place of any other while the folder can't be read."""
    return _page(asked, "The aeroplane cannot be read", "Put the lines right; this page then shows it.",
                 error.problems)  # fmt: skip


def missing(asked: Asked, error: NoSuchPageError) -> TroublePage:
    """The page for what is not there."""
    return _page(asked, str(error), error.hint, ())


def _page(asked: Asked, title: str, hint: str, problems: Sequence[Problem]) -> TroublePage:
    bench = asked.bench
    return TroublePage(title, hint, problems, sorted(bench.now_texts()), asked.address,
                       bench.now.revision, named(bench.folder), asked.outcome, asked.preferences)  # fmt: skip
