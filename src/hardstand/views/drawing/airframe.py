"""The airframe in model millimetres: the inside of bays, panels, legs and wheels, the axes."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

import numpy as np

from hardstand.asbuilt import AsBuilt
from hardstand.asbuilt.value import BaySection, PlacedLeg
from hardstand.description.aeroplane import Panel
from hardstand.views.drawing.shapes import Circle, Group, Point, Shape, area, line

Triple = tuple[float, float, float]
VIEWS = {"plan": (0, 1), "elevation": (0, 2), "front": (1, 2)}


def bay_outline(rows: Sequence[BaySection], view: str) -> tuple[Point, ...]:
    """The outline of a bay in plan or elevation through its sections, straight between them."""
    axis = 0 if view == "plan" else 1
    low = [(row.x_mm, min(point[axis] for point in row.outline_mm)) for row in rows]
    high = [(row.x_mm, max(point[axis] for point in row.outline_mm)) for row in rows]
    return (*high, *reversed(low))


def bays(asbuilt: AsBuilt) -> dict[str, list[BaySection]]:
    """The sections of each bay from front to back."""
    ordered = sorted(asbuilt.sections, key=lambda row: (row.bay, row.x_mm))
    return {bay: list(rows) for bay, rows in groupby(ordered, key=lambda row: row.bay)}


def bay_groups(asbuilt: AsBuilt, view: str) -> list[Group]:
    """The outlines of all bays that have a section or more, in plan or elevation."""
    return [
        Group(f"bay.{bay}", view, (area("outline", bay_outline(rows, view)),), f"Inside of {bay}")
        for bay, rows in bays(asbuilt).items()
        if len(rows) > 1
    ]


def panel_points(panel: Panel, asbuilt: AsBuilt) -> tuple[Triple, ...]:
    """Leading edge root and tip, trailing edge tip and root, of what lies outside the fuselage."""
    root, tip = np.array(panel.root_mm), np.array(panel.tip_mm)
    share = 0.0
    reach = tip[1] - root[1]
    rows = sorted(asbuilt.sections, key=lambda row: row.x_mm)
    if panel.surface != "fin" and rows and reach:
        stations = [row.x_mm for row in rows]
        widths = [max(y for y, _ in row.outline_mm) for row in rows]
        for _ in range(3):  # the side is nearly parallel to the axis: this closes to a hundredth
            x = root[0] + share * (tip[0] - root[0])
            share = max(0.0, (float(np.interp(x, stations, widths)) - root[1]) / reach)
        share = min(share, 0.95)
    chord = panel.root_chord_mm + share * (panel.tip_chord_mm - panel.root_chord_mm)
    inner = root + share * (tip - root)
    aft = np.array([1.0, 0.0, 0.0])
    ends = (inner, tip, tip + panel.tip_chord_mm * aft, inner + chord * aft)
    return tuple((float(x), float(y), float(z)) for x, y, z in ends)


def panel_groups(asbuilt: AsBuilt, view: str) -> list[Group]:
    """All panels, both sides where they are mirrored, in plan, elevation or from the front."""
    first, second = VIEWS[view]
    found = []
    for panel in asbuilt.panels:
        points = panel_points(panel, asbuilt)
        sides = [points]
        if panel.mirrored and view != "elevation":
            sides.append(tuple((x, -y, z) for x, y, z in points))
        shapes: list[Shape] = []
        for side in sides:
            flat = [(one[first], one[second]) for one in side]
            across = {round(v, 6) for _, v in flat}
            if len(across) == 1:  # seen edge on
                shapes.append(line("outline", (min(flat)[0], flat[0][1]), (max(flat)[0], flat[0][1])))
            else:
                shapes.append(area("outline", flat))
        found.append(Group(f"panel.{panel.id}", view, tuple(shapes), f"{panel.id}, {panel.surface}"))
    return found


def leg_groups(asbuilt: AsBuilt, view: str) -> list[Group]:
    """Legs down: in elevation as seen, in plan hidden, from the front as seen."""
    return [Group(f"leg.{one.id}", view, _leg(one, view), f"{one.id}, down") for one in asbuilt.legs]


def _leg(placed: PlacedLeg, view: str) -> tuple[Shape, ...]:
    leg = placed.leg
    x, y, z = (one.value for one in placed.contact)
    half, radius = leg.wheel_width_mm / 2.0, leg.wheel_radius_mm
    px, py, pz = leg.pivot_mm
    if view == "plan":
        box = ((x - radius, y - half), (x + radius, y - half), (x + radius, y + half), (x - radius, y + half))
        return (area("hidden", box),)
    if view == "front":
        box = ((y - half, z), (y + half, z), (y + half, z + 2 * radius), (y - half, z + 2 * radius))
        return (line("outline", (py, pz), (y, z + radius)), area("item", box))
    hub = (x, z + radius)
    return (
        line("outline", (px - 4.0, pz), (hub[0] - 4.0, hub[1])),
        line("outline", (px + 4.0, pz), (hub[0] + 4.0, hub[1])),
        Circle("item", hub, radius),
        Circle("thin", hub, radius * 0.45),
        Circle("item", (px, pz), 6.0),
    )


def ground_mm(asbuilt: AsBuilt) -> float | None:
    """Height of the ground that the wheels stand on, None without legs."""
    return min((one.contact[2].value for one in asbuilt.legs), default=None)


def widest_mm(asbuilt: AsBuilt) -> float:
    """Half the greatest width of the fuselage inside, 0 without sections."""
    return max((abs(y) for row in asbuilt.sections for y, _ in row.outline_mm), default=0.0)


def heights_mm(asbuilt: AsBuilt) -> tuple[float, float]:
    """Lowest and highest point of the fuselage inside, zeros without sections."""
    heights = [z for row in asbuilt.sections for _, z in row.outline_mm]
    return min(heights, default=0.0), max(heights, default=0.0)


def extent(asbuilt: AsBuilt) -> tuple[tuple[float, float], tuple[float, float], tuple[float, float]]:
    """Least and greatest x, y, z of all that is drawn of the airframe and the items, in mm."""
    from hardstand.views.drawing.equipment import corners

    points = [np.array([(row.x_mm, y, z) for y, z in row.outline_mm]) for row in asbuilt.sections]
    points += [corners(item) for item in asbuilt.items]
    for panel in asbuilt.panels:
        rows = np.array(panel_points(panel, asbuilt))
        points += [rows, rows * [1.0, -1.0, 1.0]] if panel.mirrored else [rows]
    points += [np.array([(x, y, tray.top_z_mm) for x, y in tray.outline_mm]) for tray in asbuilt.trays]
    for one in asbuilt.legs:
        x, y, z = (value.value for value in one.contact)
        points.append(np.array([(x, y, z), one.leg.pivot_mm]))
    if not points:
        return (0.0, 1000.0), (-100.0, 100.0), (-100.0, 100.0)
    every = np.vstack(points)
    low, high = every.min(axis=0), every.max(axis=0)
    along, across, up = ((float(a), float(b)) for a, b in zip(low, high, strict=True))
    return along, across, up
