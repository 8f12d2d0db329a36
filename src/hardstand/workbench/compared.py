"""A comparison in its JSON form as pages show it: lines side by side, findings, differences in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from hardstand.standards.units import System
from hardstand.views.comparison import COUNTED
from hardstand.views.in_other_units import in_units
from hardstand.views.number import figure_shown, shown
from hardstand.workbench.templating import said

Form = Mapping[str, Any]


@dataclass(frozen=True)
class Row:
    """One line: its label, and in each column the value with what it is of."""

    label: str
    cells: tuple[tuple[str, str], ...]

    @property
    def alike(self) -> bool:
        """Whether all columns have the same."""
        return len(set(self.cells)) == 1


@dataclass(frozen=True)
class Change:
    """A finding that is not the same in all columns: its severity in each, empty where it is not there."""

    code: str
    about: str
    severities: tuple[str, ...]


@dataclass(frozen=True)
class Compared:
    """Columns by name with their notes; lines; findings; by column, the differences from the first.

    `beside` says by what figures was compared and what was not assessed.
    """

    names: tuple[str, ...]
    notes: tuple[str, ...]
    rows: tuple[Row, ...]
    findings: tuple[Change, ...]
    differences: tuple[tuple[str, ...], ...]
    beside: tuple[str, ...]

    def with_row(self, row: Row) -> Compared:
        """The same with a row before all others."""
        return replace(self, rows=(row, *self.rows))


def compared(form: Form, units: System) -> Compared:
    """What `compare --json` gives, in words and in the units asked for."""
    columns = form["columns"]
    told = tuple(
        tuple(said(one["text"], units) for one in form["differences"] if one["column"] == at)
        for at in range(len(columns)))  # fmt: skip
    findings = tuple(
        Change(one["code"], ", ".join(one["about"]), tuple(word or "" for word in one["severities"]))
        for one in form["findings"])  # fmt: skip
    return Compared(tuple(one["name"] for one in columns), tuple(one["note"] for one in columns),
                    (*_counts(form), *_lines(form, units)), findings, told, _beside(form))  # fmt: skip


def _counts(form: Form) -> list[Row]:
    return [Row(label, tuple((str(one["counts"][word]), "") for one in form["columns"]))
            for word, label in COUNTED.items()]  # fmt: skip


def _lines(form: Form, units: System) -> list[Row]:
    return [Row(one["label"], tuple((value_said(each, units), in_units(each["of"], units))
                                    for each in one["values"]))
            for one in form["lines"]]  # fmt: skip


def value_said(value: Form, units: System) -> str:
    """A value of a line: counts as they are, known lengths and masses whole, others with their doubt.

    >>> value_said({"figure": {"value": 24970.0, "unit": "mm", "u": 0.0}, "note": ""}, "metric")
    '24970 mm'
    """
    figure = value["figure"]
    if figure is None:
        return str(value["note"])
    if not figure["unit"]:
        return f"{figure['value']:g}"
    if not figure["u"] and units == "metric" and figure["unit"] in ("mm", "g"):
        return f"{figure['value']:.0f} {figure['unit']}"
    return figure_shown(figure, units) if figure["u"] else shown(figure["value"], figure["unit"], None, units)


def _beside(form: Form) -> tuple[str, ...]:
    bases: dict[str, list[str]] = {}
    for one in form["lines"]:
        if one["basis"]:
            bases.setdefault(one["basis"], []).append(one["label"])
    found = [f"Compared by {basis}: {'; '.join(labels)}." for basis, labels in bases.items()]
    columns = form["columns"]
    every = [name for name in columns[0]["not_assessed"] if all(name in one["not_assessed"] for one in columns)]
    return (*found, *([f"Not assessed, so not compared: {', '.join(every)}."] if every else []))
