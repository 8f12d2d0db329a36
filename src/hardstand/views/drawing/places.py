"""Trays with their openings, keep-outs and hatches in model millimetres, in plan and elevation."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np

from hardstand.description.places import Hatch, Hole, KeepOut, Tray
from hardstand.views.drawing.hull import Floats, box_corners, seen
from hardstand.views.drawing.shapes import Group, Hatched, Point, Shape, area, line

_QUARTER = 8


def tray_group(tray: Tray, view: str) -> Group:
    """A tray: its outline in plan, its plate cut along in elevation."""
    name = tray.name or tray.id
    if view == "plan":
        return Group(f"tray.{tray.id}", view, (area("thin", tray.outline_mm),), name)
    xs = [x for x, _ in tray.outline_mm]
    return Group(f"tray.{tray.id}", view, (plate(min(xs), max(xs), tray),), name)


def plate(low: float, high: float, tray: Tray) -> Shape:
    """A tray's plate seen from its edge, between two places of the first axis of a view."""
    top, bottom = tray.top_z_mm, tray.top_z_mm - tray.thickness_mm
    return area("solid", ((low, top), (high, top), (high, bottom), (low, bottom)))


def hole_outline(hole: Hole) -> tuple[Point, ...]:
    """An opening in plan as a closed line; arcs by chords that are 0.5 % short at most."""
    if hole.outline_mm is not None:
        return hole.outline_mm
    if hole.at_mm is not None and hole.diameter_mm is not None:
        start = end = hole.at_mm
        radius = hole.diameter_mm / 2.0
    else:
        assert hole.from_mm is not None  # checked when the description was read
        assert hole.to_mm is not None
        assert hole.width_mm is not None
        start, end, radius = hole.from_mm, hole.to_mm, hole.width_mm / 2.0
    along = math.atan2(end[1] - start[1], end[0] - start[0])
    points = []
    for middle, first in ((start, along + math.pi / 2.0), (end, along - math.pi / 2.0)):
        for step in range(2 * _QUARTER + 1):
            angle = first + math.pi * step / (2 * _QUARTER)
            points.append((middle[0] + radius * math.cos(angle), middle[1] + radius * math.sin(angle)))
    return tuple(points)


def hole_groups(holes: Iterable[Hole], tray: str) -> list[Group]:
    """The openings of a tray in plan; round ones with their axes are left to the sheet."""
    return [
        Group(f"hole.{hole.id}", "plan", (area("outline", hole_outline(hole)),),
              f"Opening for {hole.purpose}, {hole.id}")
        for hole in holes if hole.tray == tray
    ]  # fmt: skip


def hatch_group(hatch: Hatch) -> Group:
    """A hatch in plan: it lies before the plane of the drawing."""
    return Group(f"hatch.{hatch.id}", "plan", (area("phantom", hatch.outline_mm),),
                 hatch.name or hatch.id)  # fmt: skip


def keep_out_corners(row: KeepOut) -> list[Floats]:
    """The convex solids of a box, cylinder or convex prism as corners (V, 3); none else."""
    if row.shape == "box" and row.at_mm is not None and row.size_mm is not None:
        from hardstand.standards.rotation import rotation

        return [row.at_mm + box_corners(np.array(row.size_mm) / 2.0) @ rotation(row.turn_deg).T]
    if row.shape == "cylinder" and row.from_mm is not None and row.to_mm is not None:
        return [_tube(np.array(row.from_mm), np.array(row.to_mm), (row.diameter_mm or 0.0) / 2.0)]
    return []


def _tube(start: Floats, end: Floats, radius: float) -> Floats:
    axis = (end - start) / np.linalg.norm(end - start)
    helper = np.eye(3)[int(np.argmin(np.abs(axis)))]
    first = np.cross(axis, helper)
    first /= np.linalg.norm(first)
    second = np.cross(axis, first)
    angle = np.linspace(0.0, 2.0 * np.pi, 24, endpoint=False)[:, None]
    rim = radius * (np.cos(angle) * first + np.sin(angle) * second)
    return np.vstack([start + rim, end + rim])


def keep_out_groups(rows: Sequence[KeepOut], view: str) -> list[Group]:
    """Keep-outs: hatched, neighbours the other way; what moves is drawn as its other position."""
    ordered = sorted(rows, key=lambda row: row.id)
    return [_keep_out(row, view, rising=k % 2 == 0) for k, row in enumerate(ordered)]


def _keep_out(row: KeepOut, view: str, *, rising: bool) -> Group:
    outline = keep_out_outline(row, view)
    shapes: tuple[Shape, ...]
    if row.kind == "moving":
        shapes = (area("phantom", outline),)
    elif view == "elevation" and not _on_centreline(row):  # seen, not cut
        shapes = (area("hidden", outline),) if row.shape != "underside" else ()
    elif row.shape == "underside" and view == "plan":  # overhead: before the plane of the drawing
        shapes = (area("hidden", outline),)
    elif row.shape == "underside":
        assert row.profile_mm is not None  # checked when the description was read
        shapes = (Hatched(row.profile_mm, above=True), line("outline", *row.profile_mm))
    else:
        shapes = (area("thin", outline), Hatched(outline, rising))
    return Group(f"keep_out.{row.id}", view, shapes, row.name or row.id)


def _on_centreline(row: KeepOut) -> bool:
    """Whether the plane of the elevation, y = 0, goes through a keep-out."""
    if row.y_mm is not None:
        low, high = row.y_mm
    else:
        across = [y for _, y in keep_out_outline(row, "plan")]
        low, high = min(across), max(across)
    return low <= 0.0 <= high


def keep_out_outline(row: KeepOut, view: str) -> tuple[Point, ...]:
    """The outline of a keep-out in plan or elevation; of an underside the band, or its profile."""
    for corners in keep_out_corners(row):
        return seen(corners, view)
    if row.outline_mm is not None:
        if view == "plan":
            return row.outline_mm
        assert row.bottom_mm is not None  # checked when the description was read
        assert row.top_mm is not None
        xs = [x for x, _ in row.outline_mm]
        low, high = min(xs), max(xs)
        return (low, row.bottom_mm), (high, row.bottom_mm), (high, row.top_mm), (low, row.top_mm)
    assert row.profile_mm is not None
    assert row.y_mm is not None
    if view == "elevation":
        return row.profile_mm
    (start, _), (end, _), (low, high) = row.profile_mm[0], row.profile_mm[-1], row.y_mm
    return (start, low), (end, low), (end, high), (start, high)
