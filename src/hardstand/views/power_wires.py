"""The table of `show power` on the wire of each lead: what it carries, what is there, what would do."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.standards.units import System, show
from hardstand.views.plates import Plate
from hardstand.views.table import Cell, Column

Form = Mapping[str, Any]
_MOST, _LEAST_G = 12, 0.05
_WIRES = (Column("lead"), Column("from – to", flowed=True, rank=4, least=16),
          Column("length", "figure", rank=3), Column("amperes", "figure"),
          Column("when", flowed=True, rank=2, least=14), Column("there"), Column("enough"),
          Column("asked by", rank=1), Column("mass", "figure"), Column("plug", flowed=True, rank=5,
          least=12))  # fmt: skip
_BINDS = {"drop": "drop", "volts": "volts after it", "warmth": "warmth", "load": "10 A a mm²",
          "size": "least size"}  # fmt: skip


def wire_plate(form: Form, system: System) -> Plate:
    """The table: leads thinner than they should be first, then by the mass that another wire saves."""
    rows = sorted(form["wires"], key=_order)
    changed = [one for one in rows if one["mass_difference_g"] is None or not _same(one)]
    first = changed[:_MOST]
    others = [one for one in rows if one not in first]
    left = "" if first else f"{len(others)} leads have the smallest wire that does"
    return Plate("Wire of each lead, at its worst moment and in the worst single failure", _WIRES,
                 [_row(one, system) for one in first], [_row(one, system) for one in others], left,
                 _said(form))  # fmt: skip


def _said(form: Form) -> str:
    said = ("Enough is the smallest standard wire with which drop, warmth and load are inside their "
            "limits by their ±; mass is what it weighs more than what is there. Short circuits are not "
            "counted: a fuse is the answer to them.")  # fmt: skip
    silent = form["silent_leads"]
    if silent:
        said += f" Nobody states a current of {', '.join(silent)}."
    return said


def _same(one: Form) -> bool:
    return bool(abs(one["mass_difference_g"]) < _LEAST_G)


def _order(one: Form) -> tuple[int, float]:
    grown = one["mass_difference_g"]
    if one["chosen"] is None:
        return 0, 0.0
    if grown is None:
        return 2, 0.0
    return (1 if grown >= _LEAST_G else 3), -abs(grown)


def _wire(there: Form) -> str:
    if there["awg"] is not None:
        return f"gauge {there['awg']}"
    return "" if there["area_mm2"] is None else f"{there['area_mm2']:g} mm²"


def _row(one: Form, system: System) -> tuple[Cell, ...]:
    chosen = one["chosen"]
    enough = "none" if chosen is None else _wire(
        {"awg": None, "area_mm2": None, chosen["field"]: chosen["value"]})  # fmt: skip
    grown = one["mass_difference_g"]
    mass = "" if grown is None else "" if _same(one) else f"{'+' if grown > 0 else '−'}" + show(
        abs(grown), "g", None, system)  # fmt: skip
    which = "lasting" if one["binds"] == "warmth" else "worst"  # what the choice rests on
    return (
        (one["lead"], "strong"), f"{one['from']} – {one['to']}", show(one["length_mm"], "mm", None, system),
        show(one[f"{which}_a"], "a", None, system), one[f"{which}_at"], _wire(one["there"]), enough,
        _BINDS[one["binds"]], mass, one["connector_enough"] or "none",
    )  # fmt: skip
