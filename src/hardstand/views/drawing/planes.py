"""Section planes in plan and elevation, as ISO 128-3 marks them.

A chain line, thick at its ends, arrows at the ends that point the way one looks (aft, to the right in
both views), and a capital letter at each arrow. I and O are left out: they read as figures.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from hardstand.views.drawing.arrows import arrow
from hardstand.views.drawing.boxes import text_box
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.shapes import Group, Placement, Shape, Text, line

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
_END, _SHAFT = 13.0, 16.0  # design pixels: thick end, arrow's shaft
_APART, _STEP = 44.0, 18.0  # planes closer than this have their ends in two rows
OFF, REACH = 6.0, 28.0  # from the view to the thick end, and to the outer edge of the letter


def letter(number: int) -> str:
    """The letter of a section by its rank from the nose: A, B ... Z, AA, AB ...

    >>> letter(0), letter(8), letter(24)
    ('A', 'J', 'AA')
    """
    before, rest = divmod(number, len(_LETTERS))
    return (letter(before - 1) if before else "") + _LETTERS[rest]


def plane_letter(x_mm: float, sections: Sequence[float]) -> str:
    """The letter of the section at a station among those that are drawn; A for one by itself."""
    ordered = sorted(set(sections) | {x_mm})
    return letter(ordered.index(x_mm))


def plane_letters(sections: Sequence[float]) -> dict[float, str]:
    """The letters of all sections by station."""
    return {x: letter(rank) for rank, x in enumerate(sorted(set(sections)))}


def plane_marks(
    letters: Mapping[float, str], y: tuple[float, float], on: Placement, medium: Medium
) -> tuple[Shape, ...]:
    """The marks of planes, by station with their letters, through a view between two heights, y."""
    found: list[Group] = []
    before, out = -math.inf, 0.0
    for one, said in sorted(letters.items()):
        x = on.point(one, 0.0)[0]
        out = _STEP if x - before < _APART * medium.unit and not out else 0.0
        before = x
        found.append(_mark(one, said, (y[0] - out * medium.unit, y[1] + out * medium.unit), on, medium))
    return tuple(found)


def _mark(x_mm: float, said: str, y: tuple[float, float], on: Placement, medium: Medium) -> Group:
    unit = medium.unit
    x, (top, bottom) = on.point(x_mm, 0.0)[0], y
    shapes: list[Shape] = [line("centre", (x, top), (x, bottom))]
    for edge, out in ((top, -1.0), (bottom, 1.0)):
        outer = edge + out * _END * unit
        shapes.append(line("cut", (x, edge), (x, outer)))
        shapes.append(line("thin", (x, outer), (x + _SHAFT * unit, outer)))
        shapes.append(arrow((x + _SHAFT * unit, outer), 0.0, 9.0 * unit, 3.0 * unit))
        base = outer + 0.36 * medium.height("head") * 0.8
        shapes.append(Text("plane", (x - 5.0 * unit, base), said, "end"))
    return Group("", "section-plane", tuple(shapes), f"Section {said}–{said}, looking aft")


def plane_room(marks: Sequence[Shape], medium: Medium) -> list[tuple[float, float, float, float]]:
    """The boxes of letters and arrows, which no name may cover."""
    found = []
    for mark in marks:
        assert isinstance(mark, Group)
        for one in mark.shapes:
            if isinstance(one, Text):
                left, top, right, bottom = text_box(one, medium)
                unit = medium.unit
                found.append((left - 2 * unit, top - 2 * unit, right + 24.0 * unit, bottom + 2 * unit))
    return found
