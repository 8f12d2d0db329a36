"""What was asked of a placement and what came of it, as frozen values and as plain data."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from hardstand.changes import AnyChange, change_as_json
from hardstand.findings import Finding

if TYPE_CHECKING:
    from hardstand.engines.fit.placement import Binding, CostPart, Place, Short
    from hardstand.engines.fit.placement.wishes import Target


@dataclass(frozen=True, slots=True)
class Request:
    """What is asked: items free to move (None: all that may), how many layouts, how much work.

    `work` is deterministic: one is some ten seconds for a whole aeroplane. `seconds` only cuts off.
    """

    free: tuple[str, ...] | None = None
    alternatives: int = 1
    work: int = 2
    seconds: float = math.inf
    seed: int = 1


@dataclass(frozen=True, slots=True)
class Checked:
    """What the checks in three dimensions say about a layout: new findings, and those gone.

    `clashes`: findings of the fit about items that may move that forbid the layout, or, where they
    are new, leave it to be measured; `tries`: how many layouts were sought until this one.
    """

    tries: int
    new: tuple[Finding, ...]
    gone: tuple[Finding, ...]
    clashes: tuple[Finding, ...]

    @property
    def passed(self) -> bool:
        """Whether nothing new is a no-go, of whatever stage, and nothing that may move has one."""
        return not any(one.severity == "no-go" for one in (*self.new, *self.clashes))


@dataclass(frozen=True, slots=True)
class Found:
    """One layout: where each item stands, the changes, what it costs, what stops it, the check.

    `elsewhere`: how many items stand truly elsewhere than in the nearest layout before it.
    """

    places: tuple[Place, ...]
    changes: tuple[AnyChange, ...]
    parts: tuple[CostPart, ...]
    cost_mm: float
    cg_mm: tuple[float, float] | None
    bindings: tuple[Binding, ...]
    checked: Checked
    short: tuple[Short, ...]
    elsewhere: int = 0

    def with_elsewhere(self, count: int) -> Found:
        """The same, differing in so many items from those before it."""
        return replace(self, elsewhere=count)

    def as_json(self, number: int, bound_mm: float, mark_x_mm: float | None) -> dict[str, Any]:
        """The layout as plain data."""
        return {
            "number": number,
            "cost_mm": self.cost_mm,
            "gap_mm": self.cost_mm - bound_mm,
            "gap_pct": 100.0 * (self.cost_mm - bound_mm) / self.cost_mm if self.cost_mm else 0.0,
            "cost": [_part(one) for one in self.parts],
            "cg_aft_mm": _aft(self.cg_mm, mark_x_mm),
            "places": [_place(one) for one in self.places],
            "changes": [change_as_json(one) for one in self.changes],
            "stops": [
                {"item": one.item, "way": one.way, "saves_mm_per_mm": one.saves_mm,
                 "by": [{"what": fault.what, "about": list(fault.about)} for fault in one.faults]}
                for one in self.bindings
            ],
            "short_leads": [
                {"lead": one.lead, "needs_mm": one.needs_mm, "has_mm": one.has_mm}
                for one in self.short
            ],
            "elsewhere": self.elsewhere,
            "checked": {
                "passed": self.checked.passed,
                "tries": self.checked.tries,
                "clashes": [one.as_json() for one in self.checked.clashes],
                "new": [one.as_json() for one in self.checked.new],
                "gone": [one.as_json() for one in self.checked.gone],
            },
        }  # fmt: skip


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a request: layouts best first, the proven bound, the start, or why there is none.

    `ending`: proven (no better layout exists), work, cancelled, infeasible or unknown. `failed`: what
    layouts before it clashed with in three dimensions.
    """

    aeroplane: str
    options: tuple[str, ...]
    request: Request
    ending: str
    found: tuple[Found, ...]
    bound_mm: float
    start_parts: tuple[CostPart, ...]
    start_mm: float
    start_cg_mm: tuple[float, float] | None
    start_legal: bool
    target: Target | None
    held: Mapping[str, str]
    left_out: tuple[str, ...]
    failed: tuple[str, ...]
    contradicts: tuple[str, ...]
    ways_out: tuple[str, ...]
    contradiction_proven: bool

    @property
    def layouts(self) -> tuple[Found, ...]:
        """The layouts that passed the checks."""
        return tuple(one for one in self.found if one.checked.passed)

    def as_json(self) -> dict[str, Any]:
        """The outcome as plain data: the stable form of `place --json`."""
        seconds = self.request.seconds
        mark = self.target.mark_x_mm if self.target else None
        target = self.target
        return {
            "format": 1,
            "aeroplane": self.aeroplane,
            "options": list(self.options),
            "ending": self.ending,
            "seed": self.request.seed,
            "work": self.request.work,
            "seconds": seconds if math.isfinite(seconds) else None,
            "bound_mm": self.bound_mm,
            "target": None if target is None else {
                "state": target.state, "low_mm": target.low_mm, "high_mm": target.high_mm,
            },
            "start": {
                "cost_mm": self.start_mm,
                "cost": [_part(one) for one in self.start_parts],
                "cg_aft_mm": _aft(self.start_cg_mm, mark),
                "legal": self.start_legal,
            },
            "layouts": [
                one.as_json(k, self.bound_mm, mark) for k, one in enumerate(self.layouts, start=1)
            ],
            "refused": [
                one.as_json(0, self.bound_mm, mark) for one in self.found if not one.checked.passed
            ],
            "held": [{"item": one, "why": why} for one, why in self.held.items()],
            "leads_left_out": list(self.left_out),
            "clashed_before": list(self.failed),
            "contradiction": None if self.ending != "infeasible" else {
                "requirements": list(self.contradicts),
                "ways_out": list(self.ways_out),
                "proven": self.contradiction_proven,
            },
        }  # fmt: skip


def _aft(cg_mm: tuple[float, float] | None, mark_x_mm: float | None) -> float | None:
    return None if cg_mm is None or mark_x_mm is None else cg_mm[0] - mark_x_mm


def _part(one: CostPart) -> dict[str, Any]:
    return {"what": one.what, "words": one.words, "value": one.value, "unit": one.unit,
            "price_mm": one.price_mm, "cost_mm": one.cost_mm}  # fmt: skip


def _place(one: Place) -> dict[str, Any]:
    return {
        "item": one.item, "name": one.name, "on": one.tray, "at_mm": list(one.at_mm),
        "turn_deg": one.turn_deg, "moved": one.moved,
        "was": {"on": one.was_tray, "at_mm": list(one.was_at_mm), "turn_deg": one.was_turn_deg},
    }  # fmt: skip
