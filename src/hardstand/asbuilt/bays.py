"""Inside sections of bays as closed outlines in (y, z)."""

from __future__ import annotations

import math

from hardstand.asbuilt.value import BaySection
from hardstand.description.aeroplane import Section
from hardstand.description.same import Made
from hardstand.figures import Input
from hardstand.standards import tolerances

CORNER_POINTS = 6  # points that stand for one rounded corner: 0.3 mm inside the arc at 40 mm radius


def rounded_outline(
    half_width_mm: float, bottom_mm: float, top_mm: float, corner_mm: float
) -> tuple[tuple[float, float], ...]:
    """A rectangle with rounded corners as a closed outline (y, z), going round from lower right.

    Points lie on the arcs, so the outline is never outside the true section: it errs to the safe side.

    >>> rounded_outline(50.0, -40.0, 60.0, 0.0)
    ((50.0, -40.0), (50.0, 60.0), (-50.0, 60.0), (-50.0, -40.0))
    """
    radius = min(corner_mm, half_width_mm, (top_mm - bottom_mm) / 2.0)
    if radius <= 0.0:
        return (
            (half_width_mm, bottom_mm),
            (half_width_mm, top_mm),
            (-half_width_mm, top_mm),
            (-half_width_mm, bottom_mm),
        )
    points = []
    inner_y, low, high = half_width_mm - radius, bottom_mm + radius, top_mm - radius
    for centre_y, centre_z, start in (
        (inner_y, low, 270.0),
        (inner_y, high, 0.0),
        (-inner_y, high, 90.0),
        (-inner_y, low, 180.0),
    ):
        for step in range(CORNER_POINTS + 1):
            angle = math.radians(start + 90.0 * step / CORNER_POINTS)
            points.append(
                (centre_y + radius * math.cos(angle), centre_z + radius * math.sin(angle))
            )
    return tuple(points)


def bay_section(section: Section) -> BaySection:
    """One section of the description as an outline, and how well its wall is known."""
    return _SECTIONS.of((section,), None, lambda: _section(section))


_SECTIONS = Made[BaySection](2048)


def _section(section: Section) -> BaySection:
    if section.outline_mm is not None:
        outline = section.outline_mm
    else:
        assert section.half_width_mm is not None  # checked when the description was read
        assert section.bottom_mm is not None
        assert section.top_mm is not None
        outline = rounded_outline(
            section.half_width_mm, section.bottom_mm, section.top_mm, section.corner_mm
        )
    return BaySection(section.id, section.bay, section.x_mm, outline, wall(section))


def wall(section: Section) -> Input:
    """How far the inside of a section may stand further out than described, as an input of value 0.

    >>> outline = ((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))
    >>> made = wall(Section(id="front", bay="body", x_mm=100.0, outline_mm=outline, tol_mm=1.0))
    >>> made.address, made.u, made.u_from
    ('section.front.tol_mm', 0.5, 'tolerance in the file')
    """
    address, default = f"section.{section.id}.tol_mm", tolerances.SECTION
    half, u_from = section.tol_mm, "tolerance in the file"
    if half is None:
        half, u_from = default.fixed, f"class default: {default.name}"
    return Input(address, 0.0, "mm", half / 2.0, "declared", address, u_from)
