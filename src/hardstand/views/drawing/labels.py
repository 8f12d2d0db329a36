"""Names in a drawing: inside where there is room, else outside on leaders that cross no label.

Rows and sides are searched for each name; of all layouts found the one that places the most, with
the shortest sum of leaders, wins. A name that has no legible place gives way to its number, which a
list explains; what has no room even for that is left out and said to be so.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hardstand.views.drawing.boxes import stacked
from hardstand.views.drawing.inked import Inked
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.label_places import GAP, Ground, Named, places_of
from hardstand.views.drawing.label_search import Places, best_places
from hardstand.views.drawing.lettering import DESCENT
from hardstand.views.drawing.shapes import Circle, Group, Shape, Text, line

__all__ = ["Ground", "Labels", "Named", "label_groups"]
_PLACES, _LEAST, _MOST = 3600, 24, 400  # in all, so that the search takes no longer for many names


@dataclass(frozen=True, slots=True)
class Labels:
    """Labels as groups about what they name; what is drawn as a number; names that found no place."""

    groups: tuple[Group, ...]
    numbered: tuple[Named, ...]
    left_out: tuple[str, ...]


def label_groups(named: Sequence[Named], ground: Ground, medium: Medium, part: str) -> Labels:
    """A place for every name, or for the number that stands for it, where there is one."""
    edges = [*ground.lines, *ground.leaders]
    lines = np.array([(*a, *b) for a, b in edges], dtype=np.float64).reshape(-1, 4)
    ink = Inked(lines, ground.room, medium.unit)
    things = stacked(ground.things)
    most = max(_LEAST, min(_MOST, _PLACES // max(1, len(named))))
    every = [places_of(one, k, ground, things, ink, medium, most) for k, one in enumerate(named)]
    chosen = best_places(every, GAP / 2.0 * medium.unit)
    groups, numbered, left_out = [], [], []
    for one, places, index in zip(named, every, chosen, strict=True):
        short = index is not None and places.short is not None and bool(places.short[index])
        if index is None:
            left_out.append(one.name)
        else:
            groups.append(_group(one, places, index, medium, part, short=short))
        if short or (one.by_number and index is None):
            numbered.append(one)
    return Labels(tuple(groups), tuple(numbered), tuple(left_out))


def _group(one: Named, places: Places, index: int, medium: Medium, part: str, *, short: bool) -> Group:
    box, leader = places.box[index], places.leader[index]
    size = medium.height(one.use)
    at = (float(box[0]), float(box[3]) - DESCENT * size)
    shapes: tuple[Shape, ...] = (Text(one.use, at, one.number if short else one.name),)
    if short:  # a number that stands for a name has a shelf under it, to be told from a figure
        low = float(box[3]) - 0.5 * medium.unit
        shapes = (*shapes, line("thin", (at[0], low), (float(box[2]), low)))
    if leader.any():
        start, end = (float(leader[0]), float(leader[1])), (float(leader[2]), float(leader[3]))
        shapes = (line("thin", start, end), Circle("solid", start, 1.6 * medium.unit), *shapes)
    return Group(one.about, f"{part}-label", shapes)
