"""Names in a drawing: inside where there is room, else outside on leaders that cross no label.

Rows and sides are searched for each name; of all layouts found the one that places the most, with
the shortest sum of leaders, wins. A name that has no legible place is left out and said to be so.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hardstand.views.drawing.boxes import stacked
from hardstand.views.drawing.inked import Inked
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.label_places import GAP, Ground, Named, places_of
from hardstand.views.drawing.label_search import Places, best_places
from hardstand.views.drawing.lettering import DESCENT
from hardstand.views.drawing.shapes import Circle, Group, Shape, Text, line

__all__ = ["Ground", "Named", "label_groups"]
_PLACES = 16000  # in all, so that the search takes no longer for many names


def label_groups(
    named: Sequence[Named], ground: Ground, medium: Medium, part: str
) -> tuple[list[Group], list[str]]:
    """Labels as groups about what they name, and the names that found no place."""
    edges = [*ground.lines, *ground.leaders]
    lines = np.array([(*a, *b) for a, b in edges], dtype=np.float64).reshape(-1, 4)
    ink = Inked(lines, ground.room, medium.unit)
    things = stacked(ground.things)
    most = max(40, min(600, _PLACES // max(1, len(named))))
    every = [places_of(one, k, ground, things, ink, medium, most) for k, one in enumerate(named)]
    chosen = best_places(every, GAP / 2.0 * medium.unit)
    groups, left_out = [], []
    for k, one in enumerate(named):
        if chosen[k] is None:
            left_out.append(one.name)
        else:
            groups.append(_group(one, every[k], chosen[k], medium, part))  # type: ignore[arg-type]
    return groups, left_out


def _group(one: Named, places: Places, index: int, medium: Medium, part: str) -> Group:
    box, leader = places.box[index], places.leader[index]
    size = medium.height(one.use)
    at = (float(box[0]), float(box[3]) - DESCENT * size)
    shapes: tuple[Shape, ...] = (Text(one.use, at, one.name),)
    if leader.any():
        start, end = (float(leader[0]), float(leader[1])), (float(leader[2]), float(leader[3]))
        shapes = (line("thin", start, end), Circle("solid", start, 1.6 * medium.unit), *shapes)
    return Group(one.about, f"{part}-label", shapes)
