"""The aeroplane from the nose, as a printed sheet in first-angle projection shows it."""

from __future__ import annotations

from hardstand.asbuilt import AsBuilt
from hardstand.views.drawing.airframe import ground_mm, leg_groups, panel_groups
from hardstand.views.drawing.shapes import Group, Placement, Shape, area, line, placed


def front_view(asbuilt: AsBuilt, on: Placement) -> tuple[Shape, ...]:
    """Largest sections, panels, legs and ground seen from the nose: starboard on the left.

    `on` is a mirrored placement. Only outlines that hide no other are drawn: the widest and the
    highest section.
    """
    shapes: list[Shape] = [line("centre", (0.0, _low(asbuilt) - 20.0), (0.0, _high(asbuilt) + 20.0))]
    shapes += panel_groups(asbuilt, "front")
    if asbuilt.sections:
        wide = max(asbuilt.sections, key=lambda row: max(y for y, _ in row.outline_mm))
        high = max(asbuilt.sections, key=lambda row: max(z for _, z in row.outline_mm))
        for row in {high.x_mm: high, wide.x_mm: wide}.values():
            shapes.append(Group(f"bay.{row.bay}", "front", (area("item", row.outline_mm),)))
    shapes += leg_groups(asbuilt, "front")
    level = ground_mm(asbuilt)
    if level is not None:
        reach = max((abs(one.contact[1].value) for one in asbuilt.legs), default=0.0) + 160.0
        shapes.append(line("thin", (-reach, level), (reach, level)))
    return placed(shapes, on)


def _low(asbuilt: AsBuilt) -> float:
    level = ground_mm(asbuilt)
    lowest = min((z for row in asbuilt.sections for _, z in row.outline_mm), default=0.0)
    return lowest if level is None else min(level, lowest)


def _high(asbuilt: AsBuilt) -> float:
    tops = [z for row in asbuilt.sections for _, z in row.outline_mm]
    return max([*tops, *(panel.tip_mm[2] for panel in asbuilt.panels)], default=0.0)
