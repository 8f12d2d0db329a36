"""What a page is asked for, and what every page has alike."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urlencode

from hardstand.views.notice import NOTICE, tally, verdict
from hardstand.workbench.bench import Bench, Held
from hardstand.workbench.outcome import Outcome
from hardstand.workbench.preferences import Preferences
from hardstand.workbench.sheets import Sheet, sheets_of


class NoSuchPageError(LookupError):
    """There is no such page, tray, row or figure; `hint` says what to do instead."""

    def __init__(self, what: str, hint: str = "") -> None:
        self.hint = hint
        super().__init__(what)


@dataclass(frozen=True)
class Asked:
    """One page as it is asked for. `typed` is what was typed into a form that was refused."""

    bench: Bench
    path: str
    query: Mapping[str, str]
    preferences: Preferences
    outcome: Outcome | None = None
    typed: Mapping[str, str] = field(default_factory=dict)

    @property
    def held(self) -> Held:
        """The aeroplane as it is now; raises UnreadableError where it can't be read."""
        return self.bench.held()

    @property
    def address(self) -> str:
        """Path and query of this page."""
        return f"{self.path}?{urlencode(self.query)}" if self.query else self.path


@dataclass(frozen=True)
class Common:
    """What every page of a readable aeroplane shows: title block, verdict, outcome, preferences."""

    aeroplane: str
    subtitle: str
    sheets: list[Sheet]
    number: str
    title: str
    view: str
    address: str
    revision: str
    when: str
    options: tuple[str, ...]
    tally: str
    verdict: str
    notice: str
    preferences: Preferences
    outcome: Outcome | None
    form: Mapping[str, Any]


def common(asked: Asked, stage: str | None, title: str, view: str) -> Common:
    """The common part of a page. `stage` is that of a sheet ("" the first), None for a page beside them."""
    held = asked.held
    sheets = sheets_of(held.form)
    number = next((str(one.number) for one in sheets if one.stage == stage), "")
    options = held.workspace.options
    return Common(
        aeroplane=held.form["aeroplane"],
        subtitle=f"with {', '.join(options)}" if options else "as described",
        sheets=sheets, number=number, title=title, view=view, address=asked.address,
        revision=held.revision, when=held.when[:10], options=options, tally=tally(held.form),
        verdict=verdict(held.form), notice=NOTICE, preferences=asked.preferences,
        outcome=asked.outcome, form=held.form,
    )  # fmt: skip
