"""The page of `hardstand check`: findings worst first, one line for every stage, the verdict.

It is composed from the JSON form of an assessment alone, so that a remembered one and a fresh one
cannot differ, and so that showing a remembered one needs no engine.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.standards.units import System
from hardstand.views.finding import finding_lines
from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Ink, Line, indented, line, printable
from hardstand.views.notice import NOTICE, tally, verdict
from hardstand.views.table import Cell, Column, rule, table
from hardstand.views.titles import title

STAGE_MARKS = {"assessed": "✓", "partly": "◐", "not assessed": "◌"}


def check_page(form: Mapping[str, Any], measure: int, system: System = "metric") -> list[Line]:
    """The whole page. `form` is what `check --json` prints; `measure` the cells of a line."""
    lines = title(form["aeroplane"], tally(form), measure, _subtitle(form))
    for number, one in enumerate(form["findings"], 1):
        lines += [BLANK, *finding_lines(one, number, measure, system)]
    if form["findings"]:
        lines += [BLANK, *flow(_ways_on(form), measure, ink="quiet")]
    lines += [BLANK, *stage_lines(form["stages"], measure), BLANK, rule(measure, "plain", "━")]
    lines += flow(line((verdict(form), "strong")), measure)
    return [*lines, *flow(NOTICE, measure)]


def _subtitle(form: Mapping[str, Any]) -> str:
    options = form.get("options") or ()
    if not options:
        return ""
    return f"with the option{'' if len(options) == 1 else 's'} {printable(', '.join(options))}"


def _ways_on(form: Mapping[str, Any]) -> str:
    """What a builder can ask next about the findings."""
    rule = "`hardstand explain CODE` gives the rule behind a finding"
    if any(one["remedy"] and one["remedy"]["changes"] for one in form["findings"]):
        return f"{rule}, `hardstand apply NUMBER` makes its remedy."
    return f"{rule}."


def stage_lines(stages: Mapping[str, Mapping[str, Any]], measure: int) -> list[Line]:
    """One line for each stage: how far it got and what is missing.

    >>> from hardstand.views.ink import text_of
    >>> states = {"fit": {"state": "partly", "title": "clearance", "missing": ["no bay section"]}}
    >>> for one in stage_lines(states, 60): print(text_of(one))
    Stages
      ◐ fit  partly  clearance; missing: no bay section
    """
    rows: list[tuple[Cell, ...]] = []
    for name, one in stages.items():
        ink: Ink = "plain" if one["state"] == "not assessed" else "strong"
        rows.append((STAGE_MARKS[one["state"]], (name, ink), one["state"], _says(name, one)))
    columns = (Column(""), Column(""), Column(""), Column("", flowed=True, least=10))
    return [line(("Stages", "quiet")), *indented(table(columns, rows, measure - 2, head=False), 2)]


def _says(name: str, one: Mapping[str, Any]) -> str:
    parts = [one["title"]] if one["title"] != name else []
    if one["missing"]:
        missing = "; ".join(one["missing"])
        parts.append(missing if one["state"] == "not assessed" else f"missing: {missing}")
    return "; ".join(parts)
