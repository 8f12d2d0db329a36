"""The sheets of the workbench: their numbers, names and addresses, and the worst mark each carries."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from hardstand.findings import SEVERITIES

# Sheets with a page of their own kind; every other assessed stage has the common one.
OWN = {"fit": "/trays", "balance": "/balance"}
SHORT = {"fit": "trays"}
OUTCOMES = {"assessed": "clear", "partly": "clear"}


@dataclass(frozen=True)
class Sheet:
    """One sheet as the title block and the list of stages show it.

    `mark` is the worst severity found, "clear" or "not assessed", empty for a sheet that is of no
    stage; `path` is empty where there is nothing to turn to. `words` say the worst in a sentence.
    """

    number: int
    stage: str
    name: str
    title: str
    path: str
    mark: str
    words: str


def sheets_of(form: Mapping[str, Any]) -> list[Sheet]:
    """The whole aeroplane first, then every stage in the order of the sheets, then the options."""
    worst = form["findings"][0]["severity"] if form["findings"] else "clear"
    found = [Sheet(1, "", "whole", "Whole aeroplane", "/", worst, "")]
    for number, (stage, state) in enumerate(form["stages"].items(), 2):
        found.append(_sheet(number, stage, state, form["findings"]))
    return [*found, Sheet(len(found) + 1, "options", "options", "Options compared", "/options", "", "")]


def _sheet(number: int, stage: str, state: Mapping[str, Any], findings: list[Mapping[str, Any]]) -> Sheet:
    own = [one for one in findings if one["code"].partition(".")[0] == stage]
    own.sort(key=lambda one: SEVERITIES.index(one["severity"]))
    assessed = state["state"] != "not assessed"
    mark = own[0]["severity"] if own else "clear" if assessed else "not assessed"
    missing = ", ".join(state["missing"])
    words = own[0]["code"].partition(".")[2].replace("-", " ") if own else ""
    if assessed and missing:
        words = f"{words}; without {missing}" if words else f"without {missing}"
    path = OWN.get(stage, f"/stage?name={stage}") if assessed else ""
    return Sheet(number, stage, SHORT.get(stage, stage), state["title"], path, mark, words)
