"""A template spread over sheets: which part lies on which sheet, and the crosses that join them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hardstand.views.template.value import Box, Point

OVERLAP_MM = 20.0  # what neighbouring sheets both show
MARGIN_MM = 6.0  # free paper around the template
_SHARES = (0.2, 0.8)  # where on a seam the crosses lie: clear of the corners where four sheets meet


@dataclass(frozen=True, slots=True)
class Tile:
    """One sheet's part of the template: its number, column from the nose, row from starboard, its box."""

    number: int
    column: int
    row: int
    box: Box


@dataclass(frozen=True, slots=True)
class Cross:
    """A cross that two neighbouring sheets both show: its letter, its place, their numbers."""

    letter: str
    at: Point
    sheets: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Tiling:
    """All sheets of a template, row by row, and their crosses."""

    columns: int
    rows: int
    tiles: tuple[Tile, ...]
    crosses: tuple[Cross, ...]


def tiling(bounds: Box, field_mm: Point) -> Tiling:
    """The fewest sheets that show everything, each with a field of `field_mm`.

    >>> found = tiling((0.0, 0.0, 300.0, 100.0), (250.0, 150.0))
    >>> found.columns, found.rows, [cross.letter for cross in found.crosses]
    (2, 1, ['A', 'B'])
    """
    columns, lefts = _spread(bounds[0], bounds[2], field_mm[0])
    rows, lows = _spread(bounds[1], bounds[3], field_mm[1])
    tiles = [
        Tile(row * columns + column + 1, column, row,
             (lefts[column], lows[rows - 1 - row],
              lefts[column] + field_mm[0], lows[rows - 1 - row] + field_mm[1]))
        for row in range(rows) for column in range(columns)
    ]  # fmt: skip
    seams = [(one, tiles[one.number]) for one in tiles if one.column < columns - 1]
    seams += [(one, tiles[one.number - 1 + columns]) for one in tiles if one.row < rows - 1]
    seams.sort(key=lambda pair: (pair[0].number, pair[1].number))
    crosses = [at for pair in seams for at in _on_seam(*pair)]
    return Tiling(columns, rows, tuple(tiles),
                  tuple(Cross(letter(k), at, pair) for k, (at, pair) in enumerate(crosses)))


def _spread(low: float, high: float, field: float) -> tuple[int, list[float]]:
    """How many fields reach over a length with its margins, and where each begins."""
    count = max(1, math.ceil((high - low + 2.0 * MARGIN_MM - OVERLAP_MM) / (field - OVERLAP_MM) - 1e-9))
    span = count * (field - OVERLAP_MM) + OVERLAP_MM
    first = (low + high - span) / 2.0
    return count, [first + k * (field - OVERLAP_MM) for k in range(count)]


def _on_seam(one: Tile, other: Tile) -> list[tuple[Point, tuple[int, int]]]:
    """The two crosses in the middle of what two neighbours both show."""
    x0, y0 = max(one.box[0], other.box[0]), max(one.box[1], other.box[1])
    x1, y1 = min(one.box[2], other.box[2]), min(one.box[3], other.box[3])
    upright = one.row == other.row
    spots = [((x0 + x1) / 2.0, y1 - share * (y1 - y0)) if upright
             else (x0 + share * (x1 - x0), (y0 + y1) / 2.0) for share in _SHARES]  # fmt: skip
    return [(at, (one.number, other.number)) for at in spots]


def letter(number: int) -> str:
    """A letter, two of them after the 26th.

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    text = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(65 + rest) + text
    return text
