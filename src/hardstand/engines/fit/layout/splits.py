"""Cases of a layout problem, and how one is split where its relaxed solution is no layout.

The parts of a split leave no layout out: an item stands on a tray or it does not, in a stance or in
another; two parts on one tray are beside one another on one of four sides, and a corner is on one
of four sides of a hole and at a whole millimetre. So the least bound over all parts is a bound.
"""

from __future__ import annotations

import math
from collections.abc import Hashable
from dataclasses import dataclass, field

import numpy as np

from hardstand.engines.fit.layout.conflicts import InHole, Overlap, conflicts
from hardstand.engines.fit.layout.programme import Line
from hardstand.engines.fit.layout.relaxation import Relaxation
from hardstand.engines.fit.layout.rows import Floats

_SLACK = 1e-4


@dataclass(frozen=True, slots=True)
class InStances:
    """Item i stands in one of these stances, or in another one."""

    i: int
    among: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class AtMost:
    """The corner of item i is at most at a whole millimetre along an axis, or at the next one on."""

    i: int
    axis: int
    at_mm: int


Split = InStances | Overlap | InHole | AtMost


@dataclass(frozen=True, slots=True)
class Case:
    """Some of all layouts: columns of stances that are shut, and lines that hold beside."""

    shut: frozenset[int] = frozenset()
    lines: dict[Hashable, Line] = field(default_factory=dict)

    def within(self, shut: frozenset[int], key: Hashable = None, line: Line | None = None) -> Case:
        """Those of them where these are shut too and, if there is one, the line holds."""
        lines = self.lines if line is None else {**self.lines, key: line}
        return Case(self.shut | shut, lines)


def splits(relaxation: Relaxation, values: Floats) -> list[tuple[Split, float]]:
    """What a relaxed solution may be split by, and how much of a conflict each is in mm.

    Items that are shared among trays or stances come first and count as infinitely much.
    """
    found: list[tuple[Split, float]] = []
    for i, columns in enumerate(relaxation.choice):
        shares, trays = values[columns], dict[int, float]()
        if shares.max() > 1.0 - _SLACK:
            continue
        for one, share in zip(relaxation.board.stances[i], shares.tolist(), strict=True):
            trays[one.tray] = trays.get(one.tray, 0.0) + share
        most = max(trays, key=lambda tray: trays[tray])
        whole = trays[most] > 1.0 - _SLACK
        among = (int(np.argmax(shares)),) if whole else tuple(relaxation.on(i, most))
        found.append((InStances(i, among), np.inf))
    met = conflicts(relaxation.board, relaxation.places(values))
    found.extend((one, one.depth_mm) for one in met if isinstance(one, Overlap | InHole))
    return found or _off_grid(relaxation, values)


def _off_grid(relaxation: Relaxation, values: Floats) -> list[tuple[Split, float]]:
    """Corners between millimetres."""
    return [
        (AtMost(i, axis, math.floor(at)), min(at - math.floor(at), math.ceil(at) - at))
        for i, (_, *corner) in enumerate(relaxation.places(values))
        for axis, at in enumerate(corner)
        if abs(at - round(at)) > _SLACK
    ]


def parts(relaxation: Relaxation, case: Case, split: Split) -> list[Case]:
    """The cases that a case is split into."""
    if isinstance(split, InStances):
        every = frozenset(relaxation.choice[split.i])
        these = frozenset(relaxation.choice[split.i][a] for a in split.among)
        return [case.within(every - these), case.within(these)]
    if isinstance(split, AtMost):
        at = [(column, 1.0) for column in relaxation.across[split.axis][split.i]]
        lines = ((at, -np.inf, float(split.at_mm)), (at, split.at_mm + 1.0, np.inf))
        return [
            case.within(frozenset(), (split, side), line) for side, line in enumerate(lines)
        ]
    if isinstance(split, InHole):
        return _beside_hole(relaxation, case, split)
    return _apart(relaxation, case, split)


def _apart(relaxation: Relaxation, case: Case, split: Overlap) -> list[Case]:
    pair = (split.i, split.j)
    here = [relaxation.on(i, split.tray) for i in pair]
    elsewhere = frozenset(
        column
        for i, on in zip(pair, here, strict=True)
        for a, column in enumerate(relaxation.choice[i])
        if a not in on
    )
    found = []
    for side in range(4):
        line = relaxation.beside(split.i, split.part, split.j, split.other, split.tray, side)
        found.append(case.within(elsewhere, (split, side), line))
    if not elsewhere <= case.shut:
        chosen = [
            (relaxation.choice[i][a], 1.0) for i, on in zip(pair, here, strict=True) for a in on
        ]
        found.append(case.within(frozenset(), (*pair, split.tray), (chosen, -np.inf, 1.0)))
    return found


def _beside_hole(relaxation: Relaxation, case: Case, split: InHole) -> list[Case]:
    this = relaxation.choice[split.i][split.a]
    others = frozenset(relaxation.choice[split.i]) - {this}
    hole, found = split.hole, []
    for axis, first, past in ((0, hole.x0_mm, hole.x1_mm), (1, hole.y0_mm, hole.y1_mm)):
        at = [(relaxation.across[axis][split.i][split.a], 1.0)]
        for side, line in enumerate(((at, -np.inf, first - 1.0), (at, float(past), np.inf))):
            found.append(case.within(others, (split, axis, side), line))
    if not others <= case.shut:
        found.append(case.within(frozenset([this])))
    return found
