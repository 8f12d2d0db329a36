"""What is cut: the tray's outline and its openings, and both as a machine has to follow them.

A cutter that follows a line takes half its beam's width off each side. So for a machine the outline is
moved outward and openings inward by half of it, and what falls out has the size that was drawn. Paper
shows the true size.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from hardstand.description.places import Hole, Tray
from hardstand.views.template.value import (
    Point,
    Ring,
    Round,
    Slot,
    Template,
    TemplateError,
    line_of,
)

if TYPE_CHECKING:
    from shapely import Polygon

Cut = Ring | Round | Slot
_MITRE = 5.0  # a corner is cut off where its point would lie further out than this many offsets


def outline_cut(tray: Tray) -> Ring:
    """The outline of a tray."""
    return Ring("cut", f"tray.{tray.id}", _plain(tray.outline_mm))


def opening_cut(hole: Hole) -> Cut:
    """An opening; a slot without length is a round one."""
    about = f"hole.{hole.id}"
    if hole.outline_mm is not None:
        return Ring("cut", about, _plain(hole.outline_mm))
    if hole.at_mm is not None:
        assert hole.diameter_mm is not None  # checked when the description was read
        return Round("cut", about, hole.at_mm, hole.diameter_mm)
    assert hole.from_mm is not None
    assert hole.to_mm is not None
    assert hole.width_mm is not None
    if hole.from_mm == hole.to_mm:
        return Round("cut", about, hole.from_mm, hole.width_mm)
    return Slot("cut", about, hole.from_mm, hole.to_mm, hole.width_mm)


def for_machine(made: Template) -> Template:
    """The template with its cuts moved for the kerf; raises TemplateError where it leaves nothing."""
    if made.kerf_mm == 0.0:
        return made
    marks = tuple(_moved(one, made.kerf_mm) if one.layer == "cut" and isinstance(one, Cut) else one
                  for one in made.marks)  # fmt: skip
    return replace(made, marks=marks)


def _moved(cut: Cut, kerf_mm: float) -> Cut:
    what = cut.about.replace("hole.", "opening ").replace("tray.", "tray ")
    outward = cut.about.startswith("tray.")
    if isinstance(cut, Ring):
        return replace(cut, points=_offset(cut.points, kerf_mm / (2.0 if outward else -2.0), what))
    wide = cut.diameter if isinstance(cut, Round) else cut.width
    if wide <= kerf_mm:
        raise TemplateError(f"the {what} is {wide:g} mm wide, no more than the kerf")
    if isinstance(cut, Round):
        return replace(cut, diameter=wide - kerf_mm)
    return replace(cut, width=wide - kerf_mm)


def _offset(points: tuple[Point, ...], by_mm: float, what: str) -> tuple[Point, ...]:
    """A closed line moved outward by a distance, corners kept sharp."""
    from shapely import Polygon

    grown: Any = Polygon(points).buffer(by_mm, join_style="mitre", mitre_limit=_MITRE)
    if grown.geom_type != "Polygon" or grown.is_empty or grown.interiors:
        raise TemplateError(f"the {what} has places no wider than the kerf")
    return tuple((float(x), float(y)) for x, y in list(grown.exterior.coords)[:-1])


def _plain(points: tuple[Point, ...]) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in points)


def polygon_of(cut: Cut) -> Polygon:
    """What a cut encloses."""
    from shapely import Polygon

    return Polygon(line_of(cut))
