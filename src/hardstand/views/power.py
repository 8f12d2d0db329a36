"""The tables of power: packs, rails, what gets least, what each failure takes, the wire of leads."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.standards.units import System, show
from hardstand.views.ink import Line
from hardstand.views.plates import Plate, parted
from hardstand.views.power_failures import failure_plate
from hardstand.views.power_wires import wire_plate
from hardstand.views.table import Cell, Column

Form = Mapping[str, Any]
_MOST = 12
_PACKS = (Column("pack"), Column("mean", "figure"), Column("worst", "figure"),
          Column("a flight", "figure", rank=2), Column("alone", "figure", rank=3),
          Column("flights", "right"), Column("worst moment", flowed=True, rank=4, least=20))
# Rest, mean, the worst moment on all packs, and the worst on any one of them.
_RAILS = (Column("rail"), Column("set", "figure", rank=2), Column("rest", "figure", rank=1),
          Column("mean", "figure", rank=3), Column("worst", "figure"), Column("one pack", "figure"))
_LEAST = (Column("consumer"), Column("rest", "figure", rank=2), Column("mean", "figure", rank=3),
          Column("worst", "figure"), Column("least", "figure", rank=1), Column("does", flowed=True,
          rank=4, least=10))


def power_lines(form: Form, measure: int, wide: int, system: System = "metric", *,
                every: bool = False) -> list[Line]:
    """The whole of power from its JSON form; `every` shows consumers, failures and leads whole."""
    room = max(measure, min(wide, 140))
    return [one for plate in power_plates(form, system, every=every) for one in plate.lines(room, every=every)]


def power_plates(form: Form, system: System, *, every: bool = False) -> list[Plate]:
    """The tables of power; `every` names all that fails alike."""
    found: list[Plate] = []
    if form["packs"]:
        rows = [_pack(one, form, system) for one in form["packs"]]
        found.append(Plate("Packs: amperes, and charge of a flight", _PACKS, rows))
        found.append(Plate("Rails, volts", _RAILS, [_rail(one, form) for one in form["rails"]]))
        fed = sorted((one for one in form["consumers"] if _lowest(one, form) is not None),
                     key=lambda one: (_lowest(one, form) or 0.0) - (one["least_v"] or 0.0))  # fmt: skip
        first, others = parted([_least(one, form, system) for one in fed], _MOST)
        found.append(Plate("Volts at what draws current, closest first", _LEAST, first, others))
    if form["failures"]:
        found.append(failure_plate(form, every=every))
    if form["wires"]:
        found.append(wire_plate(form, system))
    return found


def _at(form: Form, name: str) -> int | None:
    names = [one["name"] for one in form["moments"]]
    return names.index(name) if name in names else None


def _worst(form: Form) -> list[int]:
    return [at for at, one in enumerate(form["moments"]) if one["worst"]]


def _lowest(one: Form, form: Form) -> float | None:
    found = [one["volts"][at] for at in _worst(form) if one["volts"][at] is not None]
    return min(found) if found else None


def _shown(value: float | None, unit: str, system: System) -> str:
    return "" if value is None else show(value, unit, None, system)


def _moment(values: Sequence[float | None], at: int | None, unit: str, system: System) -> str:
    return "" if at is None else _shown(values[at], unit, system)


def _pack(one: Form, form: Form, system: System) -> tuple[Cell, ...]:
    use = one["endurance"]
    return (
        (one["id"], "strong"), _moment(one["amperes"], _at(form, "mean"), "a", system),
        _shown(max(one["amperes"][at] for at in _worst(form)), "a", system),
        _shown(use["shared_mah"], "mah", system) if use else "",
        _shown(use["alone_mah"], "mah", system) if use else "",
        str(use["flights"]) if use else "", one["worst_moment"],
    )  # fmt: skip


def _rail(one: Form, form: Form) -> tuple[Cell, ...]:
    system: System = "metric"  # volts are the same everywhere
    figure = one["worst"]
    alone = (show(figure["value"], "v", figure["u"]) if figure
             else _shown(_lowest(one, form), "v", system))  # fmt: skip
    return ((one["domain"], "strong"), _shown(one["set_v"], "v", system),
            _moment(one["volts"], _at(form, "rest"), "v", system),
            _moment(one["volts"], _at(form, "mean"), "v", system),
            _moment(one["volts"], _at(form, "peak"), "v", system), alone)  # fmt: skip


def _least(one: Form, form: Form, system: System) -> tuple[Cell, ...]:
    return ((one["end"], "strong"), _moment(one["volts"], _at(form, "rest"), "v", system),
            _moment(one["volts"], _at(form, "mean"), "v", system),
            _shown(_lowest(one, form), "v", system), _shown(one["least_v"], "v", system),
            ", ".join(one["functions"]))  # fmt: skip
