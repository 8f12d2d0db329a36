"""Trays drawn large, to move things on: plan, ruler and elevation at one scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.description.places import Tray
from hardstand.views.drawing.anchors import anchors
from hardstand.views.drawing.frame import Frame
from hardstand.views.drawing.headings import marks_left_out, names_left_out, remarks
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.notes import Numbered, numbered
from hardstand.views.drawing.region import Region, region_of
from hardstand.views.drawing.region_drawing import Set, draw_region, set_region
from hardstand.views.drawing.ruler import scale_bar
from hardstand.views.drawing.shapes import Group, Placement
from hardstand.views.drawing.sheet_trays import about_region
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.wanted import Wanted
from hardstand.workbench.drawn.zones import MARGIN, zone_shapes, zoned, zones_of

_LEFT, _RIGHT, _TOP, _FOOT = 12.0 + MARGIN, 12.0 + MARGIN, MARGIN, 34.0
_HIGHEST = 490.0  # the most that the plan may take of a screen's height, px


@dataclass(frozen=True, slots=True)
class TraysSet:
    """Trays laid out on a drawing before anything is drawn: cheap, and enough to tell zones and scale."""

    trays: tuple[Tray, ...]
    region: Region
    at: Set
    frame: Frame
    findings: tuple[Numbered, ...]

    @property
    def scale(self) -> float:
        """Px of the drawing to a mm."""
        return self.at.plan.scale

    def zones(self, asbuilt: AsBuilt, assessment: Assessment) -> dict[int, str]:
        """The zone of every numbered finding about these trays."""
        (x0, x1), (y0, y1) = self.region.x_mm, self.region.y_mm
        places = {name: self.at.plan.point(x, y) for name, (x, y, _) in anchors(asbuilt, assessment).items()
                  if x0 < x < x1 and y0 < y < y1}  # fmt: skip
        return zones_of(self.findings, places, self.frame)


def set_trays(asbuilt: AsBuilt, assessment: Assessment, trays: Sequence[Tray], width: float) -> TraysSet:
    """Lay trays out on a drawing of a width in px."""
    region = region_of(asbuilt, tuple(trays))
    span = (region.x_mm[1] - region.x_mm[0], region.y_mm[1] - region.y_mm[0])
    scale = min((width - _LEFT - _RIGHT - 40.0) / span[0], _HIGHEST / span[1])
    at = set_region(region, (_LEFT, _TOP, width - _RIGHT, 0.0), scale, SCREEN)
    findings = tuple(numbered(assessment, about_region(asbuilt, region)))
    return TraysSet(tuple(trays), region, at, zoned(width, at.bottom + _FOOT), findings)


def draw_trays(asbuilt: AsBuilt, assessment: Assessment, laid: TraysSet, selected: Sequence[str]) -> Sheet:
    """The drawing of trays that are laid out; `selected` are ids of items."""
    frame, width, low = laid.frame, laid.frame.width, laid.at.bottom + 18.0
    wanted = Wanted(width_px=width, selected=tuple(selected))
    drawn = draw_region(asbuilt, assessment, laid.region, laid.at, laid.findings, frame, SCREEN, wanted)
    texts = [*names_left_out(drawn.left_out, "see the table"), *marks_left_out(drawn.marks.unplaced)]
    bar = scale_bar(_LEFT + 26.0, low, Placement(laid.scale, (0.0, 0.0)), SCREEN, width / 3.0)
    shapes = (
        *zone_shapes(frame), *drawn.shapes, Group("", "scale-bar", bar),
        *remarks((width / 2.0, low), texts, SCREEN, width / 2.0 - _RIGHT),
    )  # fmt: skip
    title = ", ".join(one.name or one.id for one in laid.trays)
    said = f"plan and elevation, {len(laid.findings)} findings"
    return Sheet(width, frame.height, SCREEN, f"{asbuilt.aeroplane.name}: {title}", said, shapes)
