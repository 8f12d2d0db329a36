"""The page of `hardstand check`: findings worst first, one line for every stage, the verdict.

It is composed from the JSON form of an assessment alone, so that a remembered one and a fresh one
cannot differ, and so that showing a remembered one needs no engine.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.standards.units import System
from hardstand.views.finding import finding_lines
from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Ink, Line, indented, line, printable
from hardstand.views.notice import NOTICE, tally, verdict
from hardstand.views.table import Cell, Column, rule, table
from hardstand.views.titles import title

_KINDS = {"measurement": "measurement", "accept": "acceptance", "weighing": "weigh-in",
          "on_hand": "pack on hand"}  # fmt: skip
_OF = {"weighing": "in state", "on_hand": "instead of"}
STAGE_MARKS = {"assessed": "✓", "partly": "◐", "not assessed": "◌"}


def check_page(form: Mapping[str, Any], measure: int, system: System = "metric") -> list[Line]:
    """The whole page. `form` is what `check --json` prints; `measure` the cells of a line."""
    lines = title(form["aeroplane"], tally(form), measure, _subtitle(form))
    if form.get("set_aside"):
        lines += [BLANK, *flow(set_aside_words(form["set_aside"]), measure)]
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


def set_aside_words(rows: Sequence[Mapping[str, str]]) -> str:
    """What does not apply with the options as laid, in a sentence.

    >>> row = {"table": "measurement", "id": "m1", "about": "item.hub.mass_g", "why": "there is no item hub"}
    >>> set_aside_words([row])
    'Set aside, for it does not apply with these options: measurement m1 of item.hub.mass_g (there is no item hub).'
    """
    said = [f"{_KINDS[one['table']]} {printable(one['id'])} {_OF.get(one['table'], 'of')} "
            f"{printable(one['about'])} ({printable(one['why'])})" for one in rows]
    return (f"Set aside, for {'it does' if len(rows) == 1 else 'they do'} not apply with these options: "
            f"{'; '.join(said)}.")


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
