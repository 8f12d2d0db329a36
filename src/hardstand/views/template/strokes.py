"""Figures and a few letters as strokes, so that a cutter engraves them without any font."""

from __future__ import annotations

from collections.abc import Mapping

from hardstand.views.template.value import Point

# On a grid 2 wide and 4 high, the second axis up.
_SIGNS: Mapping[str, tuple[tuple[Point, ...], ...]] = {
    "0": (((0, 0), (2, 0), (2, 4), (0, 4), (0, 0)),),
    "1": (((0.4, 3.2), (1.2, 4), (1.2, 0)),),
    "2": (((0, 4), (2, 4), (2, 2.2), (0, 0), (2, 0)),),
    "3": (((0, 4), (2, 4), (1, 2.4), (2, 1.6), (2, 0), (0, 0)),),
    "4": (((1.5, 0), (1.5, 4), (0, 1.2), (2, 1.2)),),
    "5": (((2, 4), (0, 4), (0, 2.3), (2, 2.3), (2, 0), (0, 0)),),
    "6": (((2, 4), (0, 2.3), (0, 0), (2, 0), (2, 2.1), (0, 2.1)),),
    "7": (((0, 4), (2, 4), (0.7, 0)),),
    "8": (((0, 0), (2, 0), (2, 4), (0, 4), (0, 0)), ((0, 2.1), (2, 2.1))),
    "9": (((0, 0), (2, 1.9), (2, 4), (0, 4), (0, 2), (2, 2)),),
    "−": (((0.2, 2), (1.8, 2)),),
    "D": (((0, 0), (1.2, 0), (2, 0.8), (2, 3.2), (1.2, 4), (0, 4), (0, 0)),),
    "F": (((0, 0), (0, 4), (2, 4)), ((0, 2.1), (1.5, 2.1))),
    "O": (((0.6, 0), (1.4, 0), (2, 0.8), (2, 3.2), (1.4, 4), (0.6, 4), (0, 3.2), (0, 0.8), (0.6, 0)),),
    "P": (((0, 0), (0, 4), (2, 4), (2, 1.9), (0, 1.9)),),
    "T": (((1, 0), (1, 4)), ((0, 4), (2, 4))),
    "W": (((0, 4), (0.5, 0), (1, 2.6), (1.5, 0), (2, 4)),),
    " ": (),
}  # fmt: skip
_ADVANCE = 3.0


def size_of(text: str, height_mm: float) -> Point:
    """How much room a text takes, in mm.

    >>> size_of("250", 4.0)
    (8.0, 4.0)
    """
    return (len(text) * _ADVANCE - 1.0) * height_mm / 4.0, height_mm


def strokes(text: str, middle: Point, height_mm: float) -> tuple[tuple[Point, ...], ...]:
    """A text of figures as lines in mm about its middle; raises KeyError for a sign that it lacks.

    >>> strokes("1", (0.0, 0.0), 4.0)
    (((-0.6, 1.2), (0.2, 2.0), (0.2, -2.0)),)
    """
    wide, high = size_of(text, height_mm)
    unit, (left, low) = height_mm / 4.0, (middle[0] - wide / 2.0, middle[1] - high / 2.0)
    return tuple(
        tuple((left + (number * _ADVANCE + x) * unit, low + y * unit) for x, y in stroke)
        for number, sign in enumerate(text)
        for stroke in _SIGNS[sign]
    )
