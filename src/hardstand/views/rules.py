"""What a rule says: in words, as a formula, with its limit and source; and the list of all rules."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.standards.units import System
from hardstand.views.flow import flow
from hardstand.views.in_other_units import in_units
from hardstand.views.ink import BLANK, Line, indented, line
from hardstand.views.number import limit_shown
from hardstand.views.table import Cell, Column, table
from hardstand.views.titles import title

_LABEL = 10


def rule_page(rule: Mapping[str, Any], measure: int, system: System = "metric") -> list[Line]:
    """One rule in its JSON form."""
    lines = title(rule["code"], "", measure, rule["title"])
    lines += [BLANK, *flow(in_units(rule["why"], system), measure), BLANK]
    pieces = [("formula", rule["formula"])] if rule["formula"] else []
    for limit in rule["limits"]:
        pieces += _limit(limit, system)
    pieces.append(("source", rule["source"] or "none"))
    pieces.append(("accepted", "may be, by [[accept]] with a name and a reason: it is then lowered, "
                   "never hidden" if rule["acceptable"] else "cannot be"))
    for label, words in pieces:
        first, *more = flow(words, measure - _LABEL)
        lines += [line((f"{label:<{_LABEL}}", "quiet"), *first), *indented(more, _LABEL)]
    return lines


def _limit(limit: Mapping[str, Any], system: System) -> list[tuple[str, str]]:
    """What is to be said of one limit: its bounds, how to set another, its source."""
    if "unit" not in limit:
        return [("limit", f"set by {limit['id']}")]
    meaning = f"; {limit['meaning']}" if limit["meaning"] else ""
    target = " (a target: judged on the value alone)" if limit["target"] else ""
    said = ("limit", f"{limit['id']}: {limit_shown(limit, system)}{meaning}{target}")
    if limit["default"]:
        default = limit["default"]
        return [said, ("", f"set by you: {limit['reason']}"),
                ("", f"by default {limit_shown(default, system)}; {default['source']}")]
    return [said,
            ("", f'{limit["source"]}; another is set by [[limit]] id = "{limit["id"]}" with a reason')]


def rules_page(rules: Sequence[Mapping[str, Any]], measure: int) -> list[Line]:
    """All rules, by stage.

    >>> from hardstand.views.ink import text_of
    >>> found = [{"code": "fit.box-gap", "title": "Boxes stand clear of one another"}]
    >>> for one in rules_page(found, 60)[3:]: print(text_of(one))
    fit
      fit.box-gap  Boxes stand clear of one another
    """
    lines = title("Rules", "1 rule" if len(rules) == 1 else f"{len(rules)} rules", measure)
    by_stage: dict[str, list[tuple[Cell, ...]]] = {}
    for one in rules:
        stage = one["code"].partition(".")[0]
        by_stage.setdefault(stage, []).append(((one["code"], "strong"), one["title"]))
    columns = (Column(""), Column("", flowed=True))
    for stage, rows in by_stage.items():
        body = table(columns, rows, measure - 2, head=False)
        lines += [BLANK, line((stage, "quiet")), *indented(body, 2)]
    return lines
