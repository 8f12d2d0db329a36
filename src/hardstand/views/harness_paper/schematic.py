"""Who is joined to whom, laid out for a finger to follow: boxes in columns from nose to tail, few crossings.

A lead over several columns gets a place of its own in each between. The order in the columns comes
from barycentres, swept to and fro; the best order met is kept.

Source: Sugiyama, Tagawa, Toda: Methods for visual understanding of hierarchical system structures,
IEEE Transactions on Systems, Man, and Cybernetics 11 (1981), for layers and barycentres; from memory.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

Point = tuple[float, float]
Wire = tuple[str, str, str]  # lead, end, other end
ROW, HEAD, AIR, BOX, LABEL, TRACK = 4.4, 5.4, 4.0, 42.0, 14.0, 1.4  # mm
SWEEPS = 16


@dataclass
class Block:
    """A box, or a lead's place between boxes (`lead` set): its rows left and right, and where it is."""

    id: str
    column: int
    lead: str = ""
    left: list[tuple[str, str]] = field(default_factory=list)
    right: list[tuple[str, str]] = field(default_factory=list)
    top: float = 0.0

    @property
    def height(self) -> float:
        """How high it is, mm."""
        return ROW if self.lead else HEAD + ROW * max(len(self.left), len(self.right), 1)

    def y(self, side: str, key: tuple[str, str]) -> float:
        """The height of a row's line on one side."""
        if self.lead:
            return self.top + ROW / 2.0
        rows = self.left if side == "left" else self.right
        return self.top + HEAD + ROW * (rows.index(key) + 0.5)


@dataclass(frozen=True)
class Laid:
    """A schematic laid out: blocks, the left edge of each column, a polyline for each lead, crossings."""

    blocks: tuple[Block, ...]
    columns: tuple[float, ...]
    lines: Mapping[str, tuple[Point, ...]]
    crossings: int
    size: Point


Step = tuple[Block, tuple[str, str], Block, tuple[str, str], str]


def laid_out(wires: Sequence[Wire], owners: Mapping[str, str], x_mm: Mapping[str, float], count: int) -> Laid:
    """The schematic of some wires. `owners` names the box of every end, `x_mm` its station."""
    names = dict.fromkeys(owners[end] for _, *ends in wires for end in ends)
    blocks = _columns(names, wires, owners, x_mm, count)
    steps, dummies = _steps(wires, owners, blocks)
    columns: list[list[Block]] = [[] for _ in range(1 + max(one.column for one in blocks.values()))]
    for one in (*blocks.values(), *dummies):
        columns[one.column].append(one)
    best: tuple[int, list[list[Block]]] | None = None
    for sweep in range(SWEEPS):
        _ordered(columns, steps, forward=sweep % 2 == 0)
        _ports(steps)
        found = crossings(_drawn(columns, steps)[1])
        if best is None or found < best[0]:
            best = found, [list(one) for one in columns]
    assert best is not None
    columns = best[1]
    _place(columns)
    _ports(steps)
    lefts, lines = _drawn(columns, steps)
    high = max(one.top + one.height for column in columns for one in column)
    size = lefts[-1] + BOX + (LABEL + 4.0), high
    every = tuple(one for column in columns for one in column)
    return Laid(every, tuple(lefts), lines, crossings(lines), size)


def _columns(names: Mapping[str, None], wires: Sequence[Wire], owners: Mapping[str, str],
             x_mm: Mapping[str, float], count: int) -> dict[str, Block]:  # fmt: skip
    """The boxes in columns of about the same height, from nose to tail."""
    rows = dict.fromkeys(names, 0)
    for _, one, other in wires:
        rows[owners[one]] += 1
        rows[owners[other]] += 1
    order = sorted(names, key=lambda one: (x_mm[one], one))
    whole = sum(HEAD + ROW * rows[one] / 2.0 + AIR for one in order)
    blocks, sum_up = {}, 0.0
    for one in order:
        high = HEAD + ROW * rows[one] / 2.0 + AIR
        blocks[one] = Block(one, min(int((sum_up + high / 2.0) / whole * count), count - 1))
        sum_up += high
    used = sorted({one.column for one in blocks.values()})
    for block in blocks.values():
        block.column = used.index(block.column)
    return blocks


def _steps(wires: Sequence[Wire], owners: Mapping[str, str], blocks: Mapping[str, Block]
           ) -> tuple[list[Step], list[Block]]:  # fmt: skip
    """Every wire as steps from a column to the next, or back to its own; and the places between."""
    steps: list[Step] = []
    dummies: list[Block] = []
    for lead, one, other in wires:
        first, last = sorted(((blocks[owners[end]], end) for end in (one, other)), key=lambda each: each[0].column)
        at, key = first[0], (lead, first[1])
        at.right.append(key)
        for column in range(at.column + 1, last[0].column):
            between = Block(f"{lead} {column}", column, lead)
            dummies.append(between)
            steps.append((at, key, between, (lead, ""), "left"))
            at, key = between, (lead, "")
        side = "right" if last[0].column == first[0].column else "left"
        (last[0].right if side == "right" else last[0].left).append((lead, last[1]))
        steps.append((at, key, last[0], (lead, last[1]), side))
    return steps, dummies


def _place(columns: Sequence[Sequence[Block]]) -> None:
    """Tops from the order in each column, each column centred on the highest."""
    highs = [sum(one.height for one in column) + AIR * (len(column) - 1) for column in columns]
    for column, high in zip(columns, highs, strict=True):
        y = (max(highs) - high) / 2.0
        for one in column:
            one.top = y
            y += one.height + AIR


def _ordered(columns: list[list[Block]], steps: Sequence[Step], *, forward: bool) -> None:
    """One sweep: every column in the order of the middle of what it is joined to on one side."""
    _place(columns)
    pulls: dict[int, list[float]] = {}
    joined: dict[int, list[tuple[Block, Block]]] = {}
    for a, _, b, _, _ in steps:
        joined.setdefault(id(a), []).append((b, a))
        joined.setdefault(id(b), []).append((a, b))
    for column in columns if forward else reversed(columns):
        for one in column:
            near = [far for far, _ in joined.get(id(one), ())
                    if far.column != one.column and (far.column < one.column) == forward]
            near = near or [far for far, _ in joined.get(id(one), ())]
            pulls[id(one)] = [far.top + far.height / 2.0 for far in near]
        column.sort(key=lambda one: (sum(pulls[id(one)]) / len(pulls[id(one)])
                                     if pulls[id(one)] else one.top))  # fmt: skip
        _place(columns)


def _ports(steps: Sequence[Step]) -> None:
    """The rows of every box in the order of where they lead to."""
    far: dict[tuple[int, str, tuple[str, str]], float] = {}
    boxes: dict[int, Block] = {}
    for a, key_a, b, key_b, side in steps:
        boxes |= {id(a): a, id(b): b}
        far[id(a), "right", key_a] = b.top + b.height / 2.0
        far[id(b), side, key_b] = a.top + a.height / 2.0
    for one in boxes.values():
        one.left.sort(key=lambda key: far.get((id(one), "left", key), 0.0))
        one.right.sort(key=lambda key: far.get((id(one), "right", key), 0.0))


def _drawn(columns: Sequence[Sequence[Block]], steps: Sequence[Step]
           ) -> tuple[list[float], dict[str, tuple[Point, ...]]]:  # fmt: skip
    """The left edges of the columns, and the line of every lead with a track of its own in each gap."""
    gaps: dict[int, list[Step]] = {}
    for step in steps:
        gaps.setdefault(step[0].column, []).append(step)
    lefts, x = [], LABEL
    for number in range(len(columns)):
        lefts.append(x)
        x += BOX + 2.0 * LABEL + TRACK * (len(gaps.get(number, ())) + 1)
    points: dict[str, list[Point]] = {}
    for number, here in gaps.items():
        ends = [(one[0].y("right", one[1]), one[2].y(one[4], one[3]), one) for one in here]
        down = sorted((one for one in ends if one[1] >= one[0]), key=lambda one: -one[0])
        up = sorted((one for one in ends if one[1] < one[0]), key=lambda one: one[0])
        for track, (start, goal, step) in enumerate([*down, *up], 1):
            at = lefts[number] + BOX + LABEL + TRACK * track
            last = lefts[step[2].column] + (BOX if step[4] == "right" else 0.0)
            points.setdefault(step[1][0], []).extend(
                [(lefts[number] + (0.0 if step[0].lead else BOX), start), (at, start), (at, goal), (last, goal)])
    return lefts, {lead: tuple(sorted_run(run)) for lead, run in points.items()}


def sorted_run(points: Sequence[Point]) -> list[Point]:
    """A line without points that stand twice or lie on its way.

    >>> sorted_run([(0.0, 0.0), (1.0, 0.0), (1.0, 0.0), (2.0, 0.0), (2.0, 3.0)])
    [(0.0, 0.0), (2.0, 0.0), (2.0, 3.0)]
    """
    found: list[Point] = []
    for x, y in points:
        if found and math.dist(found[-1], (x, y)) < 1e-6:
            continue
        if len(found) > 1 and abs((found[-1][0] - found[-2][0]) * (y - found[-1][1])
                                  - (found[-1][1] - found[-2][1]) * (x - found[-1][0])) < 1e-6:  # fmt: skip
            found[-1] = (x, y)
        else:
            found.append((x, y))
    return found


def crossings(lines: Mapping[str, Sequence[Point]]) -> int:
    """How often lines of upright and level pieces cross one another.

    >>> crossings({"a": [(0.0, 1.0), (4.0, 1.0)], "b": [(2.0, 0.0), (2.0, 3.0)], "c": [(3.0, 2.0), (3.0, 3.0)]})
    1
    """
    level, upright = [], []
    for lead, points in lines.items():
        for (x0, y0), (x1, y1) in itertools.pairwise(points):
            if abs(y0 - y1) < 1e-6:
                level.append((lead, min(x0, x1), max(x0, x1), y0))
            else:
                upright.append((lead, x0, min(y0, y1), max(y0, y1)))
    return sum(one != other and low < x < high and down < y < over
               for one, low, high, y in level for other, x, down, over in upright)  # fmt: skip
