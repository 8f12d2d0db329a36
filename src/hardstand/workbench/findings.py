"""Findings as a page lists them: with the number they have everywhere, their zone, what can be done."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

# What a remedy is called on its button, by the field that it changes first.
_DEEDS = {"at_mm": "Move it", "turn_deg": "Turn it", "on": "Move it", "part": "Fit it",
          "mass_g": "Put it in"}  # fmt: skip


@dataclass(frozen=True)
class Note:
    """One finding beside a drawing. `deed` is empty where its remedy is for hands, not for the file."""

    number: int
    finding: Mapping[str, Any]
    zone: str
    deed: str


def notes_of(form: Mapping[str, Any], zones: Mapping[int, str], stage: str = "") -> list[Note]:
    """All findings, or those of a stage, worst first."""
    return [Note(number, one, zones.get(number, ""), deed_of(one["remedy"]))
            for number, one in enumerate(form["findings"], 1)
            if not stage or one["code"].partition(".")[0] == stage]  # fmt: skip


def deed_of(remedy: Mapping[str, Any] | None) -> str:
    """The name of the button that makes a remedy.

    >>> deed_of({"changes": [{"address": "item.rx.at_mm", "old": [1, 2], "new": [3, 4]}]})
    'Move it'
    """
    if not remedy or not remedy["changes"]:
        return ""
    first = remedy["changes"][0]
    if "add" in first:
        return "Add it"
    if "remove" in first:
        return "Take it out"
    return _DEEDS.get(str(first["address"]).rpartition(".")[2], "Change it")
