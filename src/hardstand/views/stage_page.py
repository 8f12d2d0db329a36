"""The page of one stage: its own tables, then its findings."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.standards.units import System
from hardstand.views.balance import balance_lines
from hardstand.views.finding import finding_lines
from hardstand.views.fit import fit_lines
from hardstand.views.flow import flow
from hardstand.views.harness import harness_lines
from hardstand.views.ink import BLANK, Line
from hardstand.views.power import power_lines
from hardstand.views.titles import title

LINES = {"balance": balance_lines, "fit": fit_lines, "harness": harness_lines,
         "power": power_lines}


def stage_page(form: Mapping[str, Any], measure: int, wide: int, system: System = "metric",
               *, every: bool = False) -> list[Line]:
    """The page of a stage from its JSON form."""
    stage = form["stage"]
    said = form["title"] if form["title"] != stage else ""
    lines = title(f"{form['aeroplane']}: {stage}", form["state"], measure, said)
    if form["missing"]:
        what = "; ".join(form["missing"])
        words = what if form["state"] == "not assessed" else f"missing: {what}"
        lines += [BLANK, *flow(f"{words[:1].upper()}{words[1:]}.", measure)]
    if stage in form:
        lines += LINES[stage](form[stage], measure, wide, system, every=every)
    for one in form["findings"]:
        lines += [BLANK, *finding_lines(one, one["number"], measure, system)]
    return lines
