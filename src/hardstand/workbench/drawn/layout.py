"""Trays in plan with things where a layout puts them, and thin where they stood: to be held side by side."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from hardstand.asbuilt import AsBuilt
from hardstand.asbuilt.value import PlacedItem
from hardstand.assessment import Assessment
from hardstand.description.places import Tray
from hardstand.views.drawing.equipment import corners
from hardstand.views.drawing.hull import seen
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.lettering import shortened
from hardstand.views.drawing.numbering import item_numbers
from hardstand.views.drawing.region import Region, region_view
from hardstand.views.drawing.ruler import scale_bar
from hardstand.views.drawing.shapes import Group, Path, Placement, Shape, Text, area
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.view import View

WIDTH = 360.0  # px: a phone's screen; side by side on a desk's each is as wide or wider
_PAD, _HEAD, _GAP, _FOOT = 6.0, 20.0, 14.0, 30.0
_LEAST = 100.0  # px that a small shelf takes of a row, for its name
_EDGE_MM = 10.0  # drawn about a tray
_DASHED = ("phantom", "hidden")
_HIGHEST_PX_MM = 1.3  # px to a mm at most: a small shelf is not blown up


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a layout puts an item."""

    tray: str
    at_mm: tuple[float, float]
    turn_deg: float


def layout_drawing(
    asbuilt: AsBuilt, assessment: Assessment, trays: Sequence[Tray], spots: Mapping[str, Spot],
    title: str, width: float = WIDTH,
) -> Sheet:  # fmt: skip
    """A plan of trays with each item of `spots` at its spot, by number; the rest as it stands."""
    tops = {one.id: one.top_z_mm for one in asbuilt.trays}
    moved = tuple(_put(one, spots[one.id], tops) if one.id in spots else one for one in asbuilt.items)
    after, bare = replace(asbuilt, items=moved), replace(assessment, results={})
    numbers = item_numbers(asbuilt)
    regions = [_region(tray, asbuilt) for tray in trays]
    scale = min((width - 2.0 * _PAD) / max(one.x_mm[1] - one.x_mm[0] for one in regions), _HIGHEST_PX_MM)
    shapes: list[Shape] = []
    left, top, low = _PAD, 0.0, 0.0
    for region in regions:
        long, high = (scale * (end - begin) for begin, end in (region.x_mm, region.y_mm))
        if left > _PAD and left + long > width - _PAD:
            left, top = _PAD, low + _GAP
        on = Placement(scale, (left - region.x_mm[0] * scale, top + _HEAD + region.y_mm[1] * scale))
        name = region.trays[0].name or region.trays[0].id
        room = width - _PAD - left if long > width / 2.0 else max(long, _LEAST) + _GAP / 2.0
        shapes += [Text("micro", (left + 2.0, top + 14.0), shortened(name, "micro", SCREEN, room))]
        stood = _before([one for one in asbuilt.items if one.id in spots], region, on)
        shapes += _tray(region_view(after, bare, region, "plan", on, ()), stood, numbers)
        low = max(low, top + _HEAD + high)
        left += max(long, _LEAST) + _GAP
    bar = scale_bar(_PAD + 10.0, low + 16.0, Placement(scale, (0.0, 0.0)), SCREEN, width / 3.0)
    said = f"plan from above, {len(spots)} items elsewhere; two-dot chain lines are where they stood"
    return Sheet(width, low + _FOOT, SCREEN, title, said, (*shapes, Group("", "scale-bar", bar)))


def _put(item: PlacedItem, spot: Spot, tops: Mapping[str, float]) -> PlacedItem:
    x, y = spot.at_mm
    z = item.centre_mm[2] + tops[spot.tray] - tops.get(item.on or "", tops[spot.tray])
    return replace(item, on=spot.tray, centre_mm=(x, y, z), turn_deg=spot.turn_deg)


def _region(tray: Tray, asbuilt: AsBuilt) -> Region:
    xs, ys = zip(*tray.outline_mm, strict=True)
    tall = max((one.size_mm[2] for one in asbuilt.items), default=0.0)
    return Region((min(xs) - _EDGE_MM, max(xs) + _EDGE_MM), (min(ys) - _EDGE_MM, max(ys) + _EDGE_MM),
                  (tray.top_z_mm, tray.top_z_mm + tall), (tray,))  # fmt: skip


def _tray(view: View, stood: Sequence[Shape], numbers: Mapping[str, str]) -> list[Shape]:
    """A tray with what stands on it, each with its number, over where things stood."""
    ids = {f"item.{item.id}" for item in view.items}
    groups = [one for one in view.shapes if isinstance(one, Group)]
    around = [_faint(one) for one in groups if one.about not in ids and not one.about.startswith("bay.")]
    marks = [Group(f"item.{item.id}", "number", (_number(numbers[item.id], box),), item.name)
             for item, box in zip(view.items, view.boxes, strict=True)]  # fmt: skip
    return [*around, *stood, *(one for one in groups if one.about in ids), *marks]


def _faint(group: Group) -> Group:
    """What is around a tray, drawn so that it is not taken for where something stood."""
    shapes = tuple(replace(one, line="rule") if isinstance(one, Path) and one.line in _DASHED else one
                   for one in group.shapes)  # fmt: skip
    return replace(group, shapes=shapes)


def _number(text: str, box: tuple[float, float, float, float]) -> Text:
    left, top, right, bottom = box
    return Text("number", ((left + right) / 2.0, (top + bottom) / 2.0 + 4.3), text, "middle")


def _before(items: Sequence[PlacedItem], region: Region, on: Placement) -> list[Shape]:
    """Where items stood: the other position of what moves."""
    return [Group(f"item.{one.id}", "before", (area("phantom", on.points(seen(corners(one), "plan"))),))
            for one in items if one.on == region.trays[0].id]  # fmt: skip
