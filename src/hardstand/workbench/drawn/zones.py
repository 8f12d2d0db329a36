"""The zones of a drawing in a page: a figure along it, a letter down it, to say aloud at the bench."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from hardstand.views.drawing.frame import Frame, frame_shapes
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.notes import Numbered
from hardstand.views.drawing.shapes import Group, Point

MARGIN = 16.0  # px at every edge, for the figures and letters


def zoned(width: float, height: float) -> Frame:
    """The frame of a drawing of a size in px: its zones lie inside the margin."""
    return Frame(width, height, (MARGIN, MARGIN, width - MARGIN, height), MARGIN)


def zone_shapes(frame: Frame) -> tuple[Group, ...]:
    """Figures, letters and the ticks between them; the border is the page's own."""
    return (Group("", "zones", frame_shapes(frame, SCREEN)[1:]),)


def zones_of(findings: Sequence[Numbered], places: Mapping[str, Point], frame: Frame) -> dict[int, str]:
    """The zone of each numbered finding that is about something with a place on the drawing."""
    found = {}
    for number, finding in findings:
        at = next((places[one] for one in finding.about if one in places), None)
        if at is not None:
            found[number] = frame.zone(at)
    return found
