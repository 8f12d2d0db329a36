"""Where in a drawing a finding's mark goes: by the thing it is about, with no mark on another."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from hardstand.findings import Finding
from hardstand.views.drawing.boxes import Box, crossed, overlap, stacked
from hardstand.views.drawing.finding_marks import finding_mark, mark_box
from hardstand.views.drawing.frame import Frame
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.notes import Numbered
from hardstand.views.drawing.shapes import Circle, Group, Point, Shape, line

_RADII = (22.0, 32.0, 44.0, 58.0, 74.0, 96.0, 120.0)
_WAYS = 16
_APART, _ALIKE = 40.0, 3  # width of sheet that each mark needs; marks about one place at most


@dataclass(frozen=True, slots=True)
class Marks:
    """Marks as groups, the boxes and leaders they take, the zone of each finding by its number.

    `unplaced` are numbers of findings whose place is in the drawing but had no room for a mark.
    """

    groups: tuple[Group, ...]
    boxes: tuple[Box, ...]
    leaders: tuple[tuple[Point, Point], ...]
    zones: Mapping[int, str]
    unplaced: tuple[int, ...]
    points: Mapping[int, Point]

    def on(self, frame: Frame) -> Marks:
        """The same marks on a sheet that has become longer, with the zones that it has then."""
        zones = {number: frame.zone(at) for number, at in self.points.items()}
        groups = tuple(replace(one, data=tuple((key, zones[int(dict(one.data)["finding"])] if key == "zone" else value)
                                               for key, value in one.data)) for one in self.groups)  # fmt: skip
        return replace(self, groups=groups, zones=zones)


def place_marks(
    findings: Sequence[Numbered],
    anchors: Mapping[str, Point],
    kept: Sequence[Box],
    things: Sequence[Box],
    frame: Frame,
    medium: Medium,
) -> Marks:
    """Marks for the findings that are about something with a place in this drawing.

    anchors: where each id lies; kept: boxes that nothing may cover; things: boxes that are better
    not covered. Findings come with their numbers, worst first.
    """
    most = (frame.border[2] - frame.border[0]) / (_APART * medium.unit)
    groups: list[Group] = []
    leaders: list[tuple[Point, Point]] = []
    unplaced: list[int] = []
    about: Counter[Point] = Counter()
    taken = list(kept)
    boxes: list[Box] = []
    points: dict[int, Point] = {}
    for number, finding in findings:
        at = next((anchors[one] for one in finding.about if one in anchors), None)
        if at is None:
            continue
        points[number] = at
        spot = None
        if len(groups) < most and about[at] < _ALIKE:
            spot = _spot(finding, str(number), at, taken, leaders, things, frame, medium)
        if spot is None:
            unplaced.append(number)
            continue
        about[at] += 1
        box = mark_box(finding.severity, spot, medium, str(number))
        taken.append(box)
        boxes.append(box)
        leaders.append((at, spot))
        groups.append(_group(finding, number, at, spot, frame, medium))
    zones = {number: frame.zone(at) for number, at in points.items()}
    return Marks(tuple(groups), tuple(boxes), tuple(leaders), zones, tuple(unplaced), points)


def _spot(
    finding: Finding,
    number: str,
    at: Point,
    taken: Sequence[Box],
    leaders: Sequence[tuple[Point, Point]],
    things: Sequence[Box],
    frame: Frame,
    medium: Medium,
) -> Point | None:
    unit = medium.unit
    spots = [
        (at[0] + radius * unit * math.cos(angle), at[1] + radius * unit * math.sin(angle))
        for radius in _RADII
        for angle in (2.0 * math.pi * (way + 0.5) / _WAYS for way in range(_WAYS))
    ]
    boxes = stacked(mark_box(finding.severity, spot, medium, number) for spot in spots)
    boxes += np.array([-2.0, -2.0, 2.0, 2.0]) * unit
    lead = np.array([(*at, *spot) for spot in spots])
    left, top, right, bottom = frame.border
    clash = (boxes[:, 0] < left) | (boxes[:, 1] < top) | (boxes[:, 2] > right) | (boxes[:, 3] > bottom)
    if taken:
        clash |= overlap(boxes, stacked(taken)).any(axis=1)
        # A leader may begin inside what it is about, such as the mark of the CG.
        passed = [one for one in taken if not _holds(one, at)]
        clash |= crossed(stacked(passed), lead).any(axis=0)
    if leaders:
        clash |= crossed(boxes, np.array([(*a, *b) for a, b in leaders])).any(axis=1)
    cost = np.repeat(np.array(_RADII), _WAYS) + 30.0 * overlap(boxes, stacked(things)).sum(axis=1)
    cost = np.where(clash, np.inf, cost)
    best = int(np.argmin(cost))
    return spots[best] if math.isfinite(cost[best]) else None


def _holds(box: Box, at: Point) -> bool:
    return box[0] <= at[0] <= box[2] and box[1] <= at[1] <= box[3]


def _group(
    finding: Finding, number: int, at: Point, spot: Point, frame: Frame, medium: Medium
) -> Group:
    lead: tuple[Shape, ...] = (line("thin", at, spot), Circle("solid", at, 1.6 * medium.unit))
    data = (("finding", str(number)), ("code", finding.code), ("severity", finding.severity),
            ("zone", frame.zone(at)))  # fmt: skip
    title = f"{number}, {finding.severity}, {finding.code}: {finding.text}"
    mark = finding_mark(finding.severity, str(number), spot, medium)
    return Group(" ".join(finding.about), "finding", (*lead, *mark), title, data)
