"""The CG as the fuel burns: as plain data, and as rows on one ruler, full at the top."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from hardstand.standards.units import System
from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, indented, line
from hardstand.views.number import figure_shown
from hardstand.views.strip import Mark, strip

if TYPE_CHECKING:
    from hardstand.assessment import Assessment
    from hardstand.engines.balance.model import Locus
    from hardstand.figures import FigureSet

_ROWS = 5  # of a run, from full to the reserve; all of them on demand


def travel_form(assessment: Assessment) -> dict[str, Any]:
    """The runs of fuel with gear up and down, and the chance that all states are inside together.

    Arrays run in the order burned; the first `flown` steps are above the reserve.
    """
    travel = assessment.results.get("balance.travel")
    inside = assessment.results.get("balance.inside")
    chance = inside.figures.figure(inside.figures.addresses[0]).as_json() if inside else None
    runs = [] if travel is None else [_run(one, travel.figures) for one in travel.loci]
    return {"travel": runs, "chance_inside": chance}


def _run(one: Locus, figures: FigureSet) -> dict[str, Any]:
    address = f"balance.fuel-travel-mm@gear-{one.gear}"
    known = address in figures.addresses
    return {
        "gear": one.gear,
        "begins_from": one.base,
        "flown": one.flown,
        "fuel_pct": one.fuel_pct.tolist(),
        "mass_g": one.mass_g.tolist(),
        "aft_mm": None if one.aft_mm is None else one.aft_mm.tolist(),
        "travel": figures.figure(address).as_json() if known else None,
    }


def _kept(run: Mapping[str, Any], *, every: bool) -> Sequence[int]:
    last = run["flown"] - 1
    if every or last < _ROWS:
        return range(last + 1)
    return sorted({round(last * row / (_ROWS - 1)) for row in range(_ROWS)})


def travel_lines(
    form: Mapping[str, Any], measure: int, system: System, *, every: bool
) -> list[Line]:
    """The runs on one ruler, each step by its fuel, with the largest travel and the joint chance."""
    marks, words = [], []
    for run in form["travel"]:
        if run["aft_mm"] is None:
            continue
        for step in _kept(run, every=every):
            label = f"gear {run['gear']}, {run['fuel_pct'][step]:.0f} %"
            marks.append(Mark(label, run["aft_mm"][step]))
        if run["travel"]:
            words.append(f"{figure_shown(run['travel'], system)} with the gear {run['gear']}")
    lines: list[Line] = []
    if marks:
        factor = 1.0 / 25.4 if system == "imperial" else 1.0
        unit = "in" if system == "imperial" else "mm"
        head = f"CG aft of the mark as the main tanks empty to the reserve, {unit}"
        lines += [BLANK, line((head, "quiet")), *indented(strip(marks, measure - 2, factor), 2)]
    if words:
        lines += [BLANK, *flow(f"It travels {' and '.join(words)}.", measure)]
    if form["chance_inside"]:
        lines += [BLANK, *flow(_chance(form["chance_inside"]["value"]), measure)]
    return lines


def _chance(value_pct: float) -> str:
    said = "over 99.9 %" if value_pct > 99.9 else f"{value_pct:.1f} %"
    return (
        f"By these figures the chance is {said} that the CG lies in its range and every state that "
        "is flown keeps its static margin, all together. It says nothing of what is not described."
    )
