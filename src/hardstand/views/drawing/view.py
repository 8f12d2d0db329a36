"""One view of the aeroplane placed on the sheet, with what the lettering has to keep clear of."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from hardstand.asbuilt import AsBuilt
from hardstand.asbuilt.value import PlacedItem
from hardstand.assessment import Assessment
from hardstand.views.drawing.airframe import bay_groups, leg_groups, panel_groups
from hardstand.views.drawing.boxes import Box, bounds
from hardstand.views.drawing.equipment import TOWARD_VIEWER, corners, item_group, plug_groups
from hardstand.views.drawing.hull import seen
from hardstand.views.drawing.labels import Named
from hardstand.views.drawing.places import hatch_group, hole_groups, keep_out_groups, tray_group
from hardstand.views.drawing.shapes import Group, Path, Placement, Point, Shape, flat, placed

Segment = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class View:
    """A view on the sheet: what is drawn, the items in the order of drawing with their boxes, lines.

    `lines` are the edges that no name should sit on.
    """

    shapes: tuple[Shape, ...]
    items: tuple[PlacedItem, ...]
    boxes: tuple[Box, ...]
    lines: tuple[Segment, ...]

    def over(self, k: int) -> tuple[Box, ...]:
        """The boxes drawn after item k."""
        return self.boxes[k + 1 :]

    def named(self, numbers: Mapping[str, str] | None = None, *, by_number: bool = False) -> list[Named]:
        """The items as things to be named, or numbered where that has no room, or only numbered."""
        given = numbers or {}
        return [Named(f"item.{item.id}", item.name, box, number=given.get(item.id, ""), by_number=by_number)
                for item, box in zip(self.items, self.boxes, strict=True)]  # fmt: skip


def whole_view(
    asbuilt: AsBuilt,
    assessment: Assessment,
    view: str,
    on: Placement,
    selected: Collection[str] = (),
    *,
    detail: bool = False,
) -> View:
    """Airframe, trays, keep-outs, plugs and items in plan or elevation.

    `selected` are ids of items; `detail` adds openings of trays, hatches and the rows of contacts.
    """
    frame: list[Group] = [*panel_groups(asbuilt, view), *bay_groups(asbuilt, view)]
    inside: list[Group] = [tray_group(tray, view) for tray in asbuilt.trays]
    if view == "plan" and detail:
        inside += [one for tray in asbuilt.trays for one in hole_groups(asbuilt.holes, tray.id)]
        inside += [hatch_group(hatch) for hatch in asbuilt.hatches]
    inside += keep_out_groups(asbuilt.keep_outs, view)
    ordered = drawing_order(asbuilt.items, view)
    solids = assessment.results.get("fit.solids")
    items = item_groups(ordered, solids, view, selected, detail=detail)
    legs = leg_groups(asbuilt, view)
    shapes = placed([*frame, *legs, *inside, *items], on)
    boxes = tuple(bounds(on.points(seen(corners(item), view))) for item in ordered)
    return View(shapes, tuple(ordered), boxes, segments(placed([*frame, *legs, *inside], on)))


def drawing_order(items: Iterable[PlacedItem], view: str) -> list[PlacedItem]:
    """Items from the farthest to the nearest to the viewer."""
    axis, sense = {"plan": (2, 1.0), "elevation": (1, -1.0), "section": (0, -1.0)}[view]
    far = {item.id: float((sense * corners(item)[:, axis]).max()) for item in items}
    return sorted(items, key=lambda item: (far[item.id], item.id))


def item_groups(
    ordered: Sequence[PlacedItem],
    solids: object,
    view: str,
    selected: Collection[str],
    *,
    detail: bool,
) -> list[Group]:
    """Plugs and items; the room of a plug on the face toward the viewer lies over its item."""
    rooms = plug_groups(ordered, solids, view)
    toward = TOWARD_VIEWER[view]
    under: list[Group] = []
    over: list[Group] = []
    for item in ordered:
        for group in rooms.get(item.id, ()):
            (over if toward in item.faces_used() and len(item.faces_used()) == 1 else under).append(group)
    boxes = [item_group(item, view, selected=item.id in selected, ports=detail) for item in ordered]
    return [*under, *boxes, *over]


def segments(shapes: Iterable[Shape]) -> tuple[Segment, ...]:
    """The edges of all paths among shapes."""
    found: list[Segment] = []
    for one in flat(shapes):
        if isinstance(one, Path):
            for stroke in one.strokes:
                ends = (*stroke[1:], stroke[0]) if one.closed else stroke[1:]
                found += zip(stroke, ends, strict=False)
    return tuple(found)
