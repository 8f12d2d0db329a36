"""Many layouts side by side as arrays: what a move of one item in each would change."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.fit.layout.board import Board, Standing

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]


@dataclass
class Herd:
    """Layouts side by side: stance (c, n + 1) numbered through, corner (c, n + 1, 2) in mm."""

    stance: Ints
    corner: Ints


@dataclass(frozen=True, slots=True)
class Annealed:
    """The cheapest legal standings met (None: none was legal), and the herd at the end.

    `herd`: the layouts that differ, cheapest first, some of them perhaps not legal.
    """

    standings: list[Standing] | None
    cost: float
    herd: list[list[Standing]]
    steps: int


class Annealer:
    """Moves a herd of layouts of one board."""

    def __init__(self, board: Board, seed: int, herd: int) -> None:
        self.board, self.chart = board, board.chart
        self.random = np.random.default_rng(seed)
        self.rows = np.arange(herd)
        self.free = np.array(board.free_items)
        self.axes = np.array([0 if one.axis == "x" else 1 for one in board.problem.balances], int)
        self.targets = np.array([2.0 * one.target_g_mm for one in board.problem.balances])
        self.balance_weight = np.array([float(one.weight) for one in board.problem.balances])
        self.same_turn = _same_turn(board)
        self.apart = [
            (board.numbers[one.items[0]], board.numbers[one.items[1]], one.distance_mm, one.weight)
            for one in board.problem.apart
        ]

    def start(self, standings: list[Standing] | None) -> Herd:
        """A herd at one layout, or each item anywhere it may be by itself."""
        table, c, n = self.chart, self.rows.size, len(self.board.stances)
        stance = np.zeros((c, n + 1), dtype=np.int64)
        corner = np.zeros((c, n + 1, 2), dtype=np.int64)
        stance[:, n] = table.tray.size - 1
        for i in range(n):
            if standings is None:
                stance[:, i], corner[:, i] = self.anywhere(np.full(c, i))
            else:
                a, x, y = standings[i]
                stance[:, i], corner[:, i] = table.first[i] + a, (x, y)
        return Herd(stance, corner)

    def anywhere(self, item: Ints) -> tuple[Ints, Ints]:
        """A random stance and a random free position of one item for each layout."""
        table, random = self.chart, self.random
        stance = table.first[item] + (random.random(item.size) * table.count[item]).astype(int)
        corner = np.zeros((item.size, 2), dtype=np.int64)
        waiting = np.arange(item.size)
        for _ in range(200):
            if waiting.size == 0:
                break
            low, high = table.low[stance[waiting]], table.high[stance[waiting]]
            at = low + (random.random((waiting.size, 2)) * (high - low + 1)).astype(np.int64)
            corner[waiting] = at
            waiting = waiting[~self.allowed(stance[waiting], at)]
        return stance, corner

    def allowed(self, stance: Ints, corner: Ints) -> Flags:
        """Whether each corner is free for its stance, the other items aside."""
        table = self.chart
        at = corner - table.low[stance]
        inside = (at >= 0).all(axis=1) & (corner <= table.high[stance]).all(axis=1)
        cell = table.mask_at[stance] + at[:, 0] * table.mask_step[stance] + at[:, 1]
        return np.asarray(inside & table.mask[np.where(inside, cell, 0)])

    def pull_cost(self, herd: Herd, item: Ints, stance: Ints, corner: Ints) -> Floats:
        """Cost of all pulls on one item of each layout as if it stood there (c,)."""
        table = self.chart
        other, back = table.other[item], table.back[item]
        rows = self.rows[:, None]
        far_stance = herd.stance[rows, other]
        far = table.own[far_stance, back]
        far[:, :, :2] += 2 * herd.corner[rows, other]
        near = table.own[stance, : other.shape[1]].copy()
        near[:, :, :2] += 2 * corner[:, None, :]
        near -= far
        np.abs(near, out=near)
        near *= table.weight[item]
        return np.asarray(near.sum(axis=(1, 2)) + table.cost[stance])

    def overlap(self, herd: Herd, item: Ints, stance: Ints, corner: Ints) -> Floats:
        """How deep one item of each layout would overlap the others, in mm, summed (c,)."""
        table = self.chart
        apart = (herd.corner - corner[:, None, :]).astype(np.float32)
        rooms = table.rooms[table.kind[stance][:, None], table.kind[herd.stance]]
        dx, dy = apart[:, :, 0, None], apart[:, :, 1, None]
        depth = np.minimum(dx - rooms[..., 0], rooms[..., 1] - dx)
        np.minimum(depth, dy - rooms[..., 2], out=depth)
        np.minimum(depth, rooms[..., 3] - dy, out=depth)
        np.maximum(depth, 0.0, out=depth)
        found = depth.sum(axis=2) + 0.5 * (depth > 0.0).any(axis=2)
        found *= table.tray[herd.stance] == table.tray[stance][:, None]
        found[self.rows, item] = 0.0
        return np.asarray(found.sum(axis=1), dtype=np.float64)

    def moments(self, herd: Herd) -> Floats:
        """Twice the moments less their targets (c, balances)."""
        middles = 2 * herd.corner + self.chart.size[herd.stance]
        sums = np.einsum("n,cna->ca", self.chart.mass, middles)
        return np.asarray(sums[:, self.axes] - self.targets)

    def wishes(self, herd: Herd) -> Floats:
        """Cost of items nearer than wished (c,)."""
        middles = 2 * herd.corner + self.chart.size[herd.stance]
        found = np.zeros(self.rows.size)
        for i, j, distance, weight in self.apart:
            off = np.abs(middles[:, i] - middles[:, j]).sum(axis=1)
            found += weight * np.maximum(0, 2 * distance - off)
        return found

    def whole(self, herd: Herd) -> tuple[Floats, Floats]:
        """Cost and overlap of every layout (c,), (c,)."""
        n = len(self.board.stances)
        cost = np.abs(self.moments(herd)) @ self.balance_weight + self.wishes(herd)
        over = np.zeros(self.rows.size)
        pulls = np.zeros(self.rows.size)
        for i in range(n):
            item = np.full(self.rows.size, i)
            stance, corner = herd.stance[:, i], herd.corner[:, i]
            pulls = self.pull_cost(herd, item, stance, corner)
            fixed = self._fixed_part(i, stance, corner)
            cost += (pulls - fixed - self.chart.cost[stance]) / 2.0 + fixed
            cost += self.chart.cost[stance]
            over += self.overlap(herd, item, stance, corner) / 2.0
        return cost, over

    def _fixed_part(self, i: int, stance: Ints, corner: Ints) -> Floats:
        """The part of the pulls on item i that go to fixed ends."""
        table, n = self.chart, len(self.board.stances)
        ends = table.other[i] == n
        near = table.own[stance][:, : ends.size][:, ends].copy()
        near[:, :, :2] += 2 * corner[:, None, :]
        near -= table.own[-1, table.back[i][ends]]
        return np.asarray((np.abs(near) * table.weight[i][ends]).sum(axis=(1, 2)))


def _same_turn(board: Board) -> Ints:
    """The stance on each tray at the same turn as each stance (s + 1, trays); -1 for none."""
    total = sum(len(row) for row in board.stances)
    found = np.full((total + 1, len(board.problem.trays)), -1, dtype=np.int64)
    at = 0
    for row in board.stances:
        for a, one in enumerate(row):
            for b, other in enumerate(row):
                if one.turn == other.turn:
                    found[at + a, other.tray] = at + b
        at += len(row)
    return found
