"""A stretch of the aeroplane drawn large: its trays, what stands on them, what is around."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import numpy as np

from hardstand.asbuilt import AsBuilt
from hardstand.asbuilt.value import BaySection, PlacedItem
from hardstand.assessment import Assessment
from hardstand.description.places import KeepOut, Tray
from hardstand.views.drawing.airframe import bays
from hardstand.views.drawing.boxes import Box, bounds
from hardstand.views.drawing.clip import clipped, clipped_line
from hardstand.views.drawing.equipment import corners
from hardstand.views.drawing.hull import seen
from hardstand.views.drawing.places import (
    hatch_group,
    hole_groups,
    keep_out_groups,
    keep_out_outline,
    tray_group,
)
from hardstand.views.drawing.shapes import (
    Group,
    Hatched,
    Path,
    Placement,
    Shape,
    area,
    line,
    placed,
)
from hardstand.views.drawing.view import View, drawing_order, item_groups, segments

PLUGS_MM = 48.0  # what plugs and bends reach beyond a tray


@dataclass(frozen=True, slots=True)
class Region:
    """The stretch: x, y and z from and to, mm, and the trays that are drawn as such."""

    x_mm: tuple[float, float]
    y_mm: tuple[float, float]
    z_mm: tuple[float, float]
    trays: tuple[Tray, ...]

    def box(self, view: str) -> Box:
        """The region in a view: low and high of both axes."""
        up = self.y_mm if view == "plan" else self.z_mm
        return self.x_mm[0], up[0], self.x_mm[1], up[1]

    def items(self, asbuilt: AsBuilt) -> list[PlacedItem]:
        """The items that reach into the region, seen from above."""
        found = []
        for item in asbuilt.items:
            left, low, right, high = bounds(seen(corners(item), "plan"))
            inside = left < self.x_mm[1] and right > self.x_mm[0]
            if inside and low < self.y_mm[1] and high > self.y_mm[0]:
                found.append(item)
        return found


def region_of(asbuilt: AsBuilt, trays: Sequence[Tray]) -> Region:
    """The region about trays, with room for the plugs of what stands on them."""
    xs = [x for tray in trays for x, _ in tray.outline_mm]
    ys = [y for tray in trays for _, y in tray.outline_mm]
    x = min(xs) - PLUGS_MM, max(xs) + PLUGS_MM
    y = min(ys) - 40.0, max(ys) + 40.0
    on = {tray.id for tray in trays}
    tops = [float(corners(item)[:, 2].max()) for item in asbuilt.items if item.on in on]
    heights = [tray.top_z_mm for tray in trays]
    z = min(heights) - 36.0, max([*tops, *heights]) + 36.0
    points = [(row.x_mm, *point) for row in asbuilt.sections for point in row.outline_mm]
    near = [(across, up) for at, across, up in points if x[0] - PLUGS_MM < at < x[1] + PLUGS_MM]
    if near:
        left, low, right, high = bounds(near)
    # Around a tray that fills the fuselage the skin is worth seeing; about a bracket it is only far.
    if near and max(ys) - min(ys) > 0.5 * (right - left):
        y = min(y[0], left - 6.0), max(y[1], right + 6.0)
        z = min(z[0], low - 6.0), max(z[1], high + 6.0)
    return Region(x, y, z, tuple(trays))


def region_view(
    asbuilt: AsBuilt,
    assessment: Assessment,
    region: Region,
    view: str,
    on: Placement,
    selected: Collection[str],
) -> View:
    """The region in plan or elevation. Items of its trays are drawn whole, others thin behind them."""
    ids = {tray.id for tray in region.trays}
    here = region.items(asbuilt)
    ordered = drawing_order([item for item in here if item.on in ids], view)
    shapes: list[Shape] = [*_clipped_groups(_sides(asbuilt, region, view), region.box(view))]
    if view == "plan":
        shapes += _clipped_groups([_below(one) for one in here if one.on not in ids], region.box(view))
    shapes += [_strong(tray_group(tray, view)) for tray in region.trays]
    if view == "plan":
        shapes += [one for tray in region.trays for one in hole_groups(asbuilt.holes, tray.id)]
    near = [row for row in asbuilt.keep_outs if _reaches(row, region, view)]
    shapes += _clipped_groups(keep_out_groups(near, view), region.box(view))
    if view == "plan":
        shapes += _clipped_groups([hatch_group(one) for one in asbuilt.hatches], region.box(view))
    around = placed(shapes, on)
    solids = assessment.results.get("fit.solids")
    groups = item_groups(ordered, solids, view, selected, detail=True)
    boxes = tuple(bounds(on.points(seen(corners(item), view))) for item in ordered)
    rooms = [one for one in groups if one.part.endswith("-plug")]
    lines = segments([*around, *placed(rooms, on)])
    return View((*around, *placed(groups, on)), tuple(ordered), boxes, lines)


def _strong(group: Group) -> Group:
    """A tray is what this drawing is about: its outline is a visible edge, not a thin one."""
    shapes = tuple(Path("outline", one.strokes, one.closed) if isinstance(one, Path) and one.line == "thin"
                   else one for one in group.shapes)  # fmt: skip
    return Group(group.about, group.part, shapes, group.title)


def _below(item: PlacedItem) -> Group:
    return Group(f"item.{item.id}", "plan-below", (area("hidden", seen(corners(item), "plan")),), item.name)


def _reaches(row: KeepOut, region: Region, view: str) -> bool:
    """Whether a keep-out comes into the region and, in plan, near the height of its trays."""
    left, low, right, high = bounds(keep_out_outline(row, view))
    x0, v0, x1, v1 = region.box(view)
    if left >= x1 or right <= x0 or low >= v1 or high <= v0:
        return False
    _, bottom, _, top = bounds(keep_out_outline(row, "elevation"))
    return bottom < region.z_mm[1] and top > region.z_mm[0]


def _sides(asbuilt: AsBuilt, region: Region, view: str) -> list[Group]:
    """The inside of the bays along the region: open lines, since they go on beyond it."""
    found = []
    for bay, rows in bays(asbuilt).items():
        sides = [_side(rows, region, view, pick) for pick in (min, max)]
        shapes = tuple(line("outline", *one) for one in sides if len(one) > 1)
        found.append(Group(f"bay.{bay}", view, shapes, f"Inside of {bay}"))
    return found


def _side(rows: Sequence[BaySection], region: Region, view: str, pick: object) -> list[tuple[float, float]]:
    axis = 0 if view == "plan" else 1
    stations = [row.x_mm for row in rows]
    edge = [pick(point[axis] for point in row.outline_mm) for row in rows]  # type: ignore[operator]
    low, high = max(region.x_mm[0], stations[0]), min(region.x_mm[1], stations[-1])
    if low >= high:
        return []
    between = [x for x in stations if low < x < high]
    return [(x, float(np.interp(x, stations, edge))) for x in (low, *between, high)]


def _clipped_groups(groups: Sequence[Group], box: Box) -> list[Group]:
    """Groups cut to a box. An outline that goes on beyond it is left open there, as it is no edge."""
    found = []
    for group in groups:
        shapes: list[Shape] = []
        for one in group.shapes:
            if isinstance(one, Path):
                strokes = tuple(
                    piece
                    for stroke in one.strokes
                    for piece in clipped_line((*stroke, stroke[0]) if one.closed else stroke, box)
                )
                shapes += [Path(one.line, strokes)] if strokes else []
            elif isinstance(one, Hatched) and not one.above:
                outline = clipped(one.outline, box)
                shapes += [Hatched(outline, one.rising, one.band)] if outline else []
            elif isinstance(one, Hatched):
                shapes += [Hatched(piece, above=True) for piece in clipped_line(one.outline, box)]
        found.append(Group(group.about, group.part, tuple(shapes), group.title, group.data))
    return found
