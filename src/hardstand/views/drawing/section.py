"""A cross-section: what the plane at a station cuts, hatched, and what is seen just behind it."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import pairwise

import numpy as np

from hardstand.asbuilt import AsBuilt
from hardstand.asbuilt.value import BaySection, PlacedItem
from hardstand.assessment import Assessment
from hardstand.description.places import KeepOut, Tray
from hardstand.views.drawing.airframe import bays
from hardstand.views.drawing.boxes import bounds
from hardstand.views.drawing.equipment import corners, described, item_cut, plug_groups
from hardstand.views.drawing.hull import Floats, cut, seen
from hardstand.views.drawing.places import keep_out_corners, plate
from hardstand.views.drawing.shapes import (
    Group,
    Hatched,
    Placement,
    Point,
    Shape,
    area,
    line,
    placed,
)
from hardstand.views.drawing.view import View, drawing_order, segments

BEYOND_MM = 120.0  # how far behind the plane things are still drawn
_RESAMPLED = 96


def section_view(
    asbuilt: AsBuilt,
    assessment: Assessment,
    x_mm: float,
    y_mm: tuple[float, float],
    on: Placement,
    selected: Collection[str],
) -> View:
    """The section at a station, looking aft: starboard on the left, so `on` is mirrored.

    `y_mm` is how far the drawing reaches to both sides; what lies in the wings beyond is left out.
    """
    shapes: list[Shape] = [*bay_cuts(asbuilt, x_mm)]
    here = [item for item in asbuilt.items if y_mm[0] < item.centre_mm[1] < y_mm[1]]
    behind = [item for item in here if _behind(item, x_mm)]
    shapes += [_seen_behind(item) for item in drawing_order(behind, "section")]
    shapes += [one for tray in asbuilt.trays for one in _tray_cut(tray, x_mm)]
    shapes += [one for k, row in enumerate(sorted(asbuilt.keep_outs, key=lambda row: row.id))
               for one in _keep_out_cut(row, x_mm, rising=k % 2 == 0)]  # fmt: skip
    through = sorted((item for item in here if len(cut(corners(item), x_mm)) > 2),
                     key=lambda item: item.centre_mm[1])  # fmt: skip
    cuts = [item_cut(item, x_mm, selected=item.id in selected, rising=k % 2 == 0)
            for k, item in enumerate(through)]  # fmt: skip
    rooms = plug_groups(through, assessment.results.get("fit.solids"), "section")
    plugs = [one for groups in rooms.values() for one in groups]
    around = placed([*shapes, *plugs], on)
    boxes = tuple(bounds(on.points(cut(corners(item), x_mm))) for item in through)
    drawn = placed([one for one in cuts if one is not None], on)
    return View((*around, *drawn), tuple(through), boxes, segments(around))


def bay_cuts(asbuilt: AsBuilt, x_mm: float) -> list[Group]:
    """The inside of the bays at a station, straight between the sections before and after it."""
    found = []
    for bay, rows in bays(asbuilt).items():
        outline = outline_at(rows, x_mm)
        if outline:
            found.append(Group(f"bay.{bay}", "section", (area("outline", outline),), f"Inside of {bay}"))
    return found


def outline_at(rows: Sequence[BaySection], x_mm: float) -> tuple[Point, ...]:
    """The outline between two sections; empty beyond the ends.

    Outlines of unlike corners are compared by their length round: right where they are alike in
    shape, else a drawing's accuracy only. Clearances are the fit engine's matter.
    """
    for one, other in pairwise(rows):
        if one.x_mm <= x_mm <= other.x_mm and one.x_mm < other.x_mm:
            share = (x_mm - one.x_mm) / (other.x_mm - one.x_mm)
            a, b = np.array(one.outline_mm), np.array(other.outline_mm)
            if len(a) != len(b):
                a, b = _resampled(a), _resampled(b)
            return tuple((float(y), float(z)) for y, z in a + share * (b - a))
    return ()


def _resampled(outline: Floats) -> Floats:
    closed = np.vstack([outline, outline[:1]])
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(closed, axis=0).T))])
    at = np.linspace(0.0, along[-1], _RESAMPLED, endpoint=False)
    return np.column_stack([np.interp(at, along, closed[:, axis]) for axis in (0, 1)])


def _behind(item: PlacedItem, x_mm: float) -> bool:
    xs = corners(item)[:, 0]
    return bool(xs.min() > x_mm and xs.min() < x_mm + BEYOND_MM)


def _seen_behind(item: PlacedItem) -> Group:
    shapes = (area("neighbour", seen(corners(item), "section")),)
    return Group(f"item.{item.id}", "section-behind", shapes, described(item))


def _tray_cut(tray: Tray, x_mm: float) -> list[Group]:
    """The stretches of a tray's plate that the plane cuts."""
    meets = []
    for one, other in zip(tray.outline_mm, (*tray.outline_mm[1:], tray.outline_mm[0]), strict=True):
        if (one[0] > x_mm) != (other[0] > x_mm):
            share = (x_mm - one[0]) / (other[0] - one[0])
            meets.append(one[1] + share * (other[1] - one[1]))
    meets.sort()
    pairs = zip(meets[::2], meets[1::2], strict=False)
    plates = tuple(plate(low, high, tray) for low, high in pairs)
    return [Group(f"tray.{tray.id}", "section", plates, tray.name or tray.id)] if plates else []


def _keep_out_cut(row: KeepOut, x_mm: float, *, rising: bool) -> list[Group]:
    shapes: list[Shape] = []
    for solid in keep_out_corners(row):
        outline = cut(solid, x_mm)
        if len(outline) > 2:
            moving = row.kind == "moving"
            shapes += [area("phantom" if moving else "thin", outline)]
            shapes += [] if moving else [Hatched(outline, rising)]
    if row.outline_mm is not None and row.bottom_mm is not None and row.top_mm is not None:
        prism = np.array([(x, y, z) for x, y in row.outline_mm for z in (row.bottom_mm, row.top_mm)])
        outline = cut(prism, x_mm)
        shapes += [area("thin", outline), Hatched(outline, rising)] if len(outline) > 2 else []
    if row.profile_mm is not None and row.y_mm is not None:
        stations = [x for x, _ in row.profile_mm]
        if stations[0] <= x_mm <= stations[-1]:
            z = float(np.interp(x_mm, stations, [z for _, z in row.profile_mm]))
            edge = ((row.y_mm[1], z), (row.y_mm[0], z))  # left to right as seen: starboard first
            shapes += [Hatched(edge, above=True), line("outline", *edge)]
    return [Group(f"keep_out.{row.id}", "section", tuple(shapes), row.name or row.id)] if shapes else []
