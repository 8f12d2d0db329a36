"""Parts of the catalogue: a list of those found, or one with all that is known of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.standards.units import System, split_suffix
from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line
from hardstand.views.number import shown
from hardstand.views.table import Cell, Column, table
from hardstand.views.titles import title

_SAID_ELSEWHERE = frozenset({"id", "name", "kind", "size_mm", "mass_g", "note", "ports", "own"})


def parts_page(parts: Sequence[Mapping[str, Any]], measure: int, wide: int,
               system: System = "metric") -> list[Line]:
    """The parts found, in their JSON form, by kind."""
    count = "1 part" if len(parts) == 1 else f"{len(parts)} parts"
    lines = title("Parts", count, measure)
    columns = [Column("id"), Column(""), Column("length, width, height", rank=2),
               Column("mass", "figure", rank=1), Column("name", rank=3, flowed=True, least=30)]
    rows: list[tuple[Cell, ...]] = []
    for kind in dict.fromkeys(one["kind"] for one in parts):
        rows += [((one["id"], "strong"), "own" if one["own"] else "",
                  size_shown(one["size_mm"], system), shown(one["mass_g"], "g", None, system),
                  one["name"]) for one in parts if one["kind"] == kind]
    if not any(one["own"] for one in parts):
        columns, rows = columns[:1] + columns[2:], [row[:1] + row[2:] for row in rows]
    return [*lines, *table(columns, rows, min(wide, 140))]


def size_shown(size_mm: Sequence[float], system: System = "metric") -> str:
    """Length × width × height with the unit once.

    >>> size_shown([52.0, 28.0, 13.0])
    '52 × 28 × 13 mm'
    """
    if system == "imperial":
        return " × ".join(f"{one / 25.4:.2f}" for one in size_mm) + " in"
    return " × ".join(f"{one:g}" for one in size_mm) + " mm"


def part_page(part: Mapping[str, Any], measure: int, system: System = "metric") -> list[Line]:
    """One part with every field that is set, and its ports."""
    whose = "the builder's own" if part["own"] else "typical of its class"
    lines = title(part["name"] or part["id"], f"{part['kind']}, {whose}", measure, part["id"])
    rows: list[tuple[Cell, ...]] = [
        (("length, width, height", "quiet"), size_shown(part["size_mm"], system)),
        (("mass", "quiet"), shown(part["mass_g"], "g", None, system))]
    for name, value in part.items():
        if name not in _SAID_ELSEWHERE:
            stem, unit = split_suffix(name)
            rows.append(((stem.replace("_", " "), "quiet"), _value(value, unit or "", system)))
    lines += [BLANK, *table((Column(""), Column("", flowed=True)), rows, measure, head=False)]
    if part["note"]:
        lines += [BLANK, *flow(part["note"], measure)]
    return [*lines, *_ports(part["ports"], measure, system)]


def _value(value: Any, unit: str, system: System) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list | tuple):
        return ", ".join(_value(one, unit, system) for one in value)
    return shown(value, unit, None, system) if isinstance(value, int | float) else str(value)


def _ports(ports: Sequence[Mapping[str, Any]], measure: int, system: System) -> list[Line]:
    if not ports:
        return []
    columns = (Column("port"), Column("face"), Column("kind", rank=2), Column("plug", "figure"),
               Column("bend", "figure", rank=1), Column("connector", rank=3, flowed=True))
    rows: list[tuple[Cell, ...]] = [
        ((one["id"] if one["count"] == 1 else f"{one['id']}-1 to {one['id']}-{one['count']}",
          "strong"), one["face"], one["kind"], shown(one["plug_mm"], "mm", None, system),
         shown(one["bend_mm"], "mm", None, system), one["connector"]) for one in ports]
    said = "Plug: how far the mated plug stands out; bend: the room its lead needs to turn."
    return [BLANK, *table(columns, rows, measure), BLANK, *flow(said, measure, ink="quiet")]
