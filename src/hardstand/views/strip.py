"""Values on a ruler: each state's CG as a pointer with its tolerance, limits as thick strokes.

Drawn as on the sheets: a tolerance is a bar with end ticks, a limit a thick line, the pointer solid.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hardstand.views.ink import Ink, Line, Span, line

_STEPS = (1.0, 2.0, 5.0)


@dataclass(frozen=True, slots=True)
class Mark:
    """One row of the strip: a label, a value with its expanded uncertainty, limits that apply."""

    label: str
    value: float
    expanded: float = 0.0
    limits: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Scale:
    """A ruler from `low` to `high` over a number of cells."""

    low: float
    high: float
    cells: int

    def cell(self, value: float) -> int:
        """The cell that a value falls in; outside the ruler it is the first or last.

        >>> Scale(0.0, 10.0, 11).cell(5.0)
        5
        """
        share = (value - self.low) / (self.high - self.low)
        return min(max(round(share * (self.cells - 1)), 0), self.cells - 1)


def scale_over(values: Sequence[float], cells: int) -> Scale:
    """A ruler over all values with a little room at both ends.

    >>> scale_over([243.0, 260.0], 40).low < 243.0
    True
    """
    low, high = min(values), max(values)
    room = 0.06 * (high - low) or max(abs(high) * 1e-3, 1e-3)  # one value alone has no extent
    return Scale(low - room, high + room, cells)


def strip(marks: Sequence[Mark], measure: int, factor: float = 1.0) -> list[Line]:
    """The rows over their ruler, no wider than `measure` cells. `factor` turns values into shown ones.

    >>> from hardstand.views.ink import text_of
    >>> for one in strip([Mark("ref", 250.0, 2.0, (243.0, 260.0))], 40): print(text_of(one))
              245      250      255      260
         ─────┴────────┴────────┴────────┴──
    ref    ┃        ├──▲───┤             ┃
    """
    label_cells = max(len(one.label) for one in marks) + 2
    ends = [end for one in marks for end in
            (one.value - one.expanded, one.value + one.expanded, *one.limits)]
    scale = scale_over([end * factor for end in ends], measure - label_cells)
    lines = [line(" " * label_cells, (text, "quiet")) for text in _ruler(scale)]
    return lines + [_row(one, scale, label_cells, factor) for one in marks]


def _row(mark: Mark, scale: Scale, label_cells: int, factor: float) -> Line:
    cells: list[Span] = [(" ", "plain")] * scale.cells
    left, right = (scale.cell((mark.value + side * mark.expanded) * factor) for side in (-1, 1))
    for at in range(left, right + 1):
        cells[at] = ("─", "plain")
    if right > left:
        cells[left], cells[right] = ("├", "plain"), ("┤", "plain")
    for limit in mark.limits:
        cells[scale.cell(limit * factor)] = ("┃", "strong")
    cells[scale.cell(mark.value * factor)] = ("▲", "strong")
    while cells and cells[-1][0] == " ":
        cells.pop()
    return line(mark.label.ljust(label_cells), *_joined(cells))


def _joined(cells: Sequence[Span]) -> list[Span]:
    joined: list[tuple[str, Ink]] = []
    for text, ink in cells:
        if joined and joined[-1][1] == ink:
            joined[-1] = (joined[-1][0] + text, ink)
        else:
            joined.append((text, ink))
    return joined


def _ruler(scale: Scale) -> tuple[str, str]:
    """The figures over the ticks, and the ticks."""
    step = _step(scale)
    decimals = max(0, -math.floor(math.log10(step)))
    figures, ticks = [" "] * scale.cells, ["─"] * scale.cells
    at = math.ceil(scale.low / step) * step
    while at <= scale.high:
        text, cell = f"{at + 0.0:.{decimals}f}".replace("-", "−"), scale.cell(at)
        ticks[cell] = "┴"
        start = cell - len(text) // 2
        if start >= 0 and start + len(text) <= scale.cells:
            figures[start:start + len(text)] = text
        at += step
    return "".join(figures).rstrip(), "".join(ticks)


def _step(scale: Scale) -> float:
    """The smallest round step at which the figures of the ruler do not touch."""
    longest = max(len(f"{end:.1f}") for end in (scale.low, scale.high)) + 2
    least = (scale.high - scale.low) * longest / scale.cells
    decade = 10.0 ** math.floor(math.log10(least))
    return next((decade * one for one in _STEPS if decade * one >= least), decade * 10.0)
