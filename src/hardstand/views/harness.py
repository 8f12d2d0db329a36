"""The page of `show harness`: the plan of channels, the leads, and who is fed by what."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.standards.units import System, show
from hardstand.views.ink import Line
from hardstand.views.plates import Plate, parted
from hardstand.views.table import Cell, Column

_MOST = 12
_CHANNELS = (Column("ch.", "right"), Column("function"), Column("side", rank=3), Column("output"),
             Column("leads", rank=2, flowed=True, least=10), Column("moves", flowed=True, least=16))
_LEADS = (Column("lead"), Column("from", flowed=True, least=18), Column("to", flowed=True, least=18),
          Column("length", "figure", rank=1), Column("way", "figure", rank=1), Column("wire", "figure", rank=2),
          Column("lasting", "figure", rank=3), Column("stall", "figure", rank=4),
          Column("load", "figure", rank=5))
_SUPPLIES = (Column("fed"), Column("by", flowed=True, least=20), Column("usual", "figure"),
             Column("highest", "figure"))


def harness_lines(form: Mapping[str, Any], measure: int, wide: int, system: System = "metric",
                  *, every: bool = False) -> list[Line]:
    """The whole of the harness from its JSON form; `every` shows the leads and supplies whole."""
    room = min(wide, 140)
    return [one for plate in harness_plates(form, system) for one in plate.lines(
        measure if plate.columns is _SUPPLIES else room, every=every)]  # fmt: skip


def harness_plates(form: Mapping[str, Any], system: System) -> list[Plate]:
    """The tables of the harness."""
    found: list[Plate] = []
    if form["channels"]:
        found.append(Plate("Channels", _CHANNELS, [_channel(one) for one in form["channels"]]))
    if form["leads"]:
        first, others = parted([_lead(one, system) for one in form["leads"]], _MOST)
        found.append(Plate("Leads", _LEADS, first, others))
    if form["supplies"]:
        first, others = parted([_supply(one, system) for one in form["supplies"]], _MOST)
        found.append(Plate("Supplies, packs under way and full", _SUPPLIES, first, others))
    return found


def _channel(one: Mapping[str, Any]) -> tuple[Cell, ...]:
    return (str(one["number"] or ""), ", ".join(one["function"]),
            "" if one["side"] == "whole" else one["side"], ", ".join(one["at"]) or "bus",
            ", ".join(one["leads"]), ", ".join(one["reaches"] or one["drives"]))


def _lead(one: Mapping[str, Any], system: System) -> tuple[Cell, ...]:
    wire = f"gauge {one['awg']}" if one["awg"] is not None else _shown(one["area_mm2"], "mm2", system)
    load = one["wire_load"]
    return ((one["label"], "strong"), one["from"], one["to"],
            _shown(one["length_mm"], "mm", system),
            _figure(one["routed"], system), wire, _shown(one["lasting_a"], "a", system),
            _shown(one["stall_a"], "a", system), f"{load['value']:.0f} %" if load else "")


def _supply(one: Mapping[str, Any], system: System) -> tuple[Cell, ...]:
    return ((one["domain"], "strong"), ", ".join(one["packs"]),
            _shown(one["usual_v"], "v", system), _shown(one["highest_v"], "v", system))


def _figure(figure: Mapping[str, Any] | None, system: System) -> str:
    return "" if figure is None else show(figure["value"], figure["unit"], figure["u"], system)


def _shown(value: float | None, unit: str, system: System) -> str:
    return "" if value is None else show(value, unit, None, system)
