"""Numbers of items, for drawings too small for their names, and the list that explains them.

An item has the same number in every drawing: its rank by station. Where items stand so close that not
even numbers find room, the plan is divided into stretches, each with the numbers that lie in it.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Literal

from hardstand.asbuilt import AsBuilt
from hardstand.asbuilt.value import PlacedItem
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.lettering import shortened, width
from hardstand.views.drawing.shapes import Group, Placement, Point, Shape, Text, line

Naming = Literal["names", "numbers", "stretches"]
HEAD, ROW = 26.0, 17.0  # design pixels of a list
_NUMBERS, _STRETCHES = 0.088, 0.21  # items for each design pixel of the drawing's length


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of the list: the item's address, its number, its name."""

    about: str
    number: str
    name: str


@dataclass(frozen=True, slots=True)
class Stretch:
    """Stations from and to, mm, and the numbers that lie between them, such as 12–17."""

    x_mm: tuple[float, float]
    text: str


def in_order(items: Sequence[PlacedItem]) -> list[PlacedItem]:
    """Items from the nose aft, at one station from port to starboard."""
    return sorted(items, key=lambda item: (round(item.centre_mm[0], 3), item.centre_mm[1], item.id))


def item_numbers(asbuilt: AsBuilt) -> dict[str, str]:
    """The number of every item by its id."""
    return {item.id: str(rank) for rank, item in enumerate(in_order(asbuilt.items), 1)}


def naming(count: int, long: float, medium: Medium) -> Naming:
    """How so many items are named along so long a drawing (in units of the sheet).

    >>> from hardstand.views.drawing.kinds import SCREEN
    >>> [naming(count, 900.0, SCREEN) for count in (40, 120, 250)]
    ['names', 'numbers', 'stretches']
    """
    dense = count / (long / medium.unit)
    return "names" if dense < _NUMBERS else "numbers" if dense < _STRETCHES else "stretches"


def entries(asbuilt: AsBuilt, ids: Collection[str] | None = None) -> list[Entry]:
    """The list of all items, or of some of them, by number."""
    return [Entry(f"item.{item.id}", str(rank), item.name)
            for rank, item in enumerate(in_order(asbuilt.items), 1) if ids is None or item.id in ids]  # fmt: skip


def stretches(items: Sequence[PlacedItem], scale: float, medium: Medium) -> list[Stretch]:
    """Items from the nose aft in stretches that are long enough for their numbers to stand over them."""
    ordered = in_order(items)
    stations = [item.centre_mm[0] for item in ordered]
    found: list[Stretch] = []
    first, start = 0, min(stations, default=0.0) - 20.0
    for k in range(len(ordered)):
        last = k == len(ordered) - 1
        end = stations[k] + 20.0 if last else (stations[k] + stations[k + 1]) / 2.0
        text = str(first + 1) if first == k else f"{first + 1}–{k + 1}"
        needed = (width(text, "dimension", medium) + 10.0 * medium.unit) / scale
        if end - start >= needed and (last or stations[k + 1] > stations[k]):
            found.append(Stretch((start, end), text))
            first, start = k + 1, end
        elif last:
            before = found.pop() if found else None
            begun = before.text.split("–")[0] if before else "1"
            found.append(Stretch((before.x_mm[0] if before else start, end), f"{begun}–{k + 1}"))
    return found


def stretch_shapes(
    found: Sequence[Stretch], y: tuple[float, float], on: Placement, medium: Medium
) -> tuple[Shape, ...]:
    """Stretches over a plan as a chain with ticks; thin lines divide the plan between two heights, y."""
    unit, (top, bottom) = medium.unit, y
    shapes: list[Shape] = []
    for one in found:
        left, right = (on.point(x, 0.0)[0] for x in one.x_mm)
        shapes += [line("thin", (left, top), (right, top)), line("rule", (right, top), (right, bottom))]
        shapes += [line("thin", (x - 2.0 * unit, top + 2.0 * unit), (x + 2.0 * unit, top - 2.0 * unit))
                   for x in (left, right)]  # fmt: skip
        shapes.append(Text("dimension", ((left + right) / 2.0, top - 4.0 * unit), one.text, "middle"))
    if found:
        left = on.point(found[0].x_mm[0], 0.0)[0]
        shapes.append(line("rule", (left, top), (left, bottom)))
    return (Group("", "stretches", tuple(shapes), "Numbers of the items in each stretch"),)


def _columns(rows: Sequence[Entry], measure: float, medium: Medium) -> tuple[int, float, float]:
    """How many columns a list has in a measure, how wide each is, and where its names begin."""
    unit = medium.unit
    names = max((width(row.number, "dimension", medium) for row in rows), default=0.0) + 8.0 * unit
    longest = max((width(row.name, "name", medium) for row in rows), default=0.0)
    wide = min(names + longest + 10.0 * unit, measure)
    count = max(1, int(measure // max(wide, 1.0)))
    return count, measure / count, names


def list_height(rows: Sequence[Entry], measure: float, medium: Medium) -> float:
    """How high the list is where it is whole; nothing where it is empty."""
    if not rows:
        return 0.0
    count, _, _ = _columns(rows, measure, medium)
    return (HEAD + ROW * -(-len(rows) // count) + 6.0) * medium.unit


def list_room(rows: Sequence[Entry], measure: float, high: float, medium: Medium) -> int:
    """How many rows of a list have room in a height."""
    count, _, _ = _columns(rows, measure, medium)
    return count * max(0, int((high / medium.unit - HEAD - 6.0) // ROW))


def item_list(
    rows: Sequence[Entry], at: Point, measure: float, medium: Medium, head: str = "Numbers in the drawing"
) -> tuple[tuple[Shape, ...], float]:
    """The list in as many columns as have room, read down each; the shapes, and where it ends."""
    unit, (left, top) = medium.unit, at
    if not rows:
        return (), top
    count, wide, names = _columns(rows, measure, medium)
    deep = -(-len(rows) // count)
    shapes: list[Shape] = [Text("caption", (left, top + 14.0 * unit), head, halo=False)]
    for k, row in enumerate(rows):
        x, y = left + k // deep * wide, top + (HEAD + ROW * (k % deep + 0.75)) * unit
        number = Text("dimension", (x + names - 8.0 * unit, y), row.number, "end", halo=False)
        name = shortened(row.name, "name", medium, wide - names - 6.0 * unit)
        shapes.append(Group(row.about, "row", (number, Text("name", (x + names, y), name, halo=False))))
    return tuple(shapes), top + (HEAD + ROW * deep + 6.0) * unit
