"""A comparison as one value: columns, lines, findings that differ, and what differs in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from hardstand.description.set_aside import SetAside
from hardstand.engines.node import Compared
from hardstand.findings import Finding, Severity

Severities = Mapping[tuple[str, tuple[str, ...]], tuple[Severity | None, ...]]


@dataclass(frozen=True, slots=True)
class Column:
    """One aeroplane of a comparison: the options laid over, findings, stages left out.

    `placed` are what the solver moved before it was assessed, in words.
    """

    options: tuple[str, ...]
    note: str
    findings: tuple[Finding, ...]
    not_assessed: tuple[str, ...]
    set_aside: tuple[SetAside, ...]
    placed: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """What the column is called: its options joined by +, or the description."""
        return "+".join(self.options) or "as described"

    def counts(self) -> dict[str, int]:
        """How many findings of each severity."""
        words: tuple[Severity, ...] = ("no-go", "measure", "caution", "note")
        return {word: sum(one.severity == word for one in self.findings) for word in words}

    def as_json(self) -> dict[str, Any]:
        """The column as plain data."""
        return {
            "name": self.name,
            "options": list(self.options),
            "note": self.note,
            "counts": self.counts(),
            "not_assessed": list(self.not_assessed),
            "set_aside": [one.as_json() for one in self.set_aside],
            "placed": list(self.placed),
        }


@dataclass(frozen=True, slots=True)
class Line:
    """One line: what every column has there, None where a column's stage gave nothing."""

    id: str
    label: str
    values: tuple[Compared | None, ...]
    basis: str = ""

    def as_json(self) -> dict[str, Any]:
        """The line as plain data."""
        return {"id": self.id, "label": self.label, "basis": self.basis,
                "values": [_value(one) for one in self.values]}


def _value(one: Compared | None) -> dict[str, Any]:
    if one is None:
        return {"figure": None, "of": "", "note": "not assessed"}
    return {"figure": one.figure.as_json() if one.figure else None, "of": one.of, "note": one.note}


@dataclass(frozen=True, slots=True)
class Difference:
    """How one column differs from the first, in words; `size` counts steps worth a line."""

    column: int
    size: float
    text: str

    def as_json(self) -> dict[str, Any]:
        """The difference as plain data."""
        return {"column": self.column, "size": round(self.size, 3), "text": self.text}


@dataclass(frozen=True)
class Comparison:
    """The description and its options side by side; the first column is what the others differ from.

    `severities` holds, by code and subjects, the severity of that finding in each column (None where
    it is not raised), for those that are not the same in all.
    """

    name: str
    columns: tuple[Column, ...]
    lines: tuple[Line, ...]
    severities: Severities
    differences: tuple[Difference, ...]

    def as_json(self) -> dict[str, Any]:
        """The comparison as plain data: the stable form of `compare --json`."""
        return {
            "format": 1,
            "aeroplane": self.name,
            "columns": [one.as_json() for one in self.columns],
            "lines": [one.as_json() for one in self.lines],
            "findings": [{"code": code, "about": list(about), "severities": list(found)}
                         for (code, about), found in self.severities.items()],
            "differences": [one.as_json() for one in self.differences],
        }
