"""A well-tuned simulated annealing of one layout at a time, in plain Python, to be measured against.

Overlap is allowed at a price that follows the layout; cost and overlap are kept up to date move by
move. It uses the same board and the same cost as the solver, and none of its moves.
"""

from __future__ import annotations

import math
import random
import time
from dataclasses import dataclass

from hardstand.engines.fit.layout.board import Board, Standing

Vector = tuple[int, int, int]


@dataclass(frozen=True)
class Annealed:
    """The cheapest legal layout met (None: none was), its cost, moves tried, seconds to the first."""

    standings: list[Standing] | None
    cost: float
    moves: int
    first_s: float | None


class Annealing:
    """One layout with its cost and overlap."""

    def __init__(self, board: Board, seed: int) -> None:
        self.board, self.random = board, random.Random(seed)  # noqa: S311 -- no secret
        self.n = len(board.stances)
        self.pulls = [
            [(p.port, p.other, p.other_port, p.twice, p.weight) for p in row]
            for row in board.pulls_of
        ]
        self.rooms = {
            (i, a, j, b): [tuple(row) for row in board.colliding(i, a, j, b).tolist()]
            for i in range(self.n)
            for j in range(self.n)
            if i != j
            for a in range(len(board.stances[i]))
            for b in range(len(board.stances[j]))
            if board.stances[i][a].tray == board.stances[j][b].tray
        }
        self.free = [[s.free.tolist() for s in row] for row in board.stances]
        self.at: list[Standing] = [self.anywhere(i) for i in range(self.n)]
        self.balances = [
            (0 if one.axis == "x" else 1, 2 * one.target_g_mm, one.weight)
            for one in board.problem.balances
        ]
        self.moments = [self.moment(axis) - target for axis, target, _ in self.balances]
        self.over = [
            [self.overlap(i, self.at[i], j, self.at[j]) for j in range(self.n)]
            for i in range(self.n)
        ]

    def moment(self, axis: int) -> int:
        """Twice the moment of all items along an axis."""
        return sum(self.of(i, self.at[i], axis) for i in range(self.n))

    def of(self, i: int, at: Standing, axis: int) -> int:
        """Twice the moment of one item."""
        shape = self.board.stances[i][at[0]].shape
        size = shape.width_mm if axis else shape.length_mm
        return self.board.problem.items[i].mass_g * (2 * at[1 + axis] + size)

    def allowed(self, i: int, at: Standing) -> bool:
        """Whether an item may stand there, the others aside."""
        s = self.board.stances[i][at[0]]
        x, y = at[1] - s.x_mm, at[2] - s.y_mm
        free = self.free[i][at[0]]
        return 0 <= x < len(free) and 0 <= y < len(free[0]) and bool(free[x][y])

    def anywhere(self, i: int) -> Standing:
        """A random place that an item may stand at by itself."""
        while True:
            a = self.random.randrange(len(self.board.stances[i]))
            s = self.board.stances[i][a]
            x, y = (
                self.random.randint(s.x_mm, s.last_x_mm),
                self.random.randint(s.y_mm, s.last_y_mm),
            )
            if self.allowed(i, (a, x, y)):
                return a, x, y

    def overlap(self, i: int, one: Standing, j: int, other: Standing) -> float:
        """Depth of the overlap of two items and a little more where there is any."""
        rooms = self.rooms.get((i, one[0], j, other[0]))
        if not rooms:
            return 0.0
        dx, dy, found = other[1] - one[1], other[2] - one[2], 0
        for x0, x1, y0, y1 in rooms:
            if x0 < dx < x1 and y0 < dy < y1:
                found += min(dx - x0, x1 - dx, dy - y0, y1 - dy)
        return found + 0.5 if found else 0.0

    def point(self, i: int, at: Standing, port: str) -> Vector:
        """Twice the place of a port."""
        s = self.board.stances[i][at[0]]
        p = s.shape.ports[port]
        return 2 * at[1] + p[0], 2 * at[2] + p[1], s.twice_z + p[2]

    def cost_of(self, i: int, at: Standing, moved: dict[int, Standing]) -> float:
        """Cost of the pulls on an item; those to a moved item of a lower number are left out."""
        s, total = self.board.stances[i][at[0]], 0
        ports = s.shape.ports
        for port, other, far, twice, weight in self.pulls[i]:
            if other >= 0:
                if other in moved and other < i:
                    continue
                twice = self.point(other, moved.get(other, self.at[other]), far)  # noqa: PLW2901
            p = ports[port]
            total += (
                weight[0] * abs(2 * at[1] + p[0] - twice[0])
                + weight[1] * abs(2 * at[2] + p[1] - twice[1])
                + weight[2] * abs(s.twice_z + p[2] - twice[2])
            )
        return total + s.cost

    def proposal(self, spread: float) -> dict[int, Standing] | None:
        """A move: one item's new place, or two."""
        draw, rnd = self.random.random(), self.random
        i = rnd.choice(self.board.free_items)
        a, x, y = self.at[i]
        if draw < 0.16:
            return self._swap(i)
        if draw < 0.66:
            x += round(rnd.gauss(0, spread))
            y += 0 if rnd.random() < 0.3 else round(rnd.gauss(0, spread))
        elif draw < 0.78:
            a, x, y = self._turned(i, rnd.randrange(len(self.board.stances[i])), x, y)
        elif draw < 0.90:
            a, x, y = self.anywhere(i)
        elif self.pulls[i]:
            port, other, far, twice, _ = rnd.choice(self.pulls[i])
            if other >= 0:
                twice = self.point(other, self.at[other], far)
            p = self.board.stances[i][a].shape.ports[port]
            if rnd.random() < 0.5:
                x = round((twice[0] - p[0]) / 2)
            else:
                y = round((twice[1] - p[1]) / 2)
        s = self.board.stances[i][a]
        at = (a, min(max(x, s.x_mm), s.last_x_mm), min(max(y, s.y_mm), s.last_y_mm))
        return {i: at} if self.allowed(i, at) else None

    def _turned(self, i: int, a: int, x: int, y: int) -> Standing:
        """Another stance about the same middle."""
        old, new = self.board.stances[i][self.at[i][0]].shape, self.board.stances[i][a].shape
        return (
            a,
            x + (old.length_mm - new.length_mm) // 2,
            y + (old.width_mm - new.width_mm) // 2,
        )

    def _swap(self, i: int) -> dict[int, Standing] | None:
        j = self.random.choice(self.board.free_items)
        if i == j:
            return None
        found = {}
        for one, other in ((i, j), (j, i)):
            b, x, y = self.at[other]
            tray, turn = (
                self.board.stances[other][b].tray,
                self.board.stances[one][self.at[one][0]].turn,
            )
            a = next(
                (
                    k
                    for k, s in enumerate(self.board.stances[one])
                    if s.tray == tray and s.turn == turn
                ),
                None,
            )
            if a is None:
                return None
            s = self.board.stances[one][a]
            at = (a, min(max(x, s.x_mm), s.last_x_mm), min(max(y, s.y_mm), s.last_y_mm))
            if not self.allowed(one, at):
                return None
            found[one] = at
        return found

    def change(
        self, moved: dict[int, Standing]
    ) -> tuple[float, float, dict[tuple[int, int], float]]:
        """What a move adds to cost and overlap, and the new overlaps."""
        now = {i: self.at[i] for i in moved}
        cost = sum(self.cost_of(i, at, moved) for i, at in moved.items())
        cost -= sum(self.cost_of(i, at, now) for i, at in now.items())
        for (axis, _, weight), moment in zip(self.balances, self.moments, strict=True):
            shift = sum(self.of(i, moved[i], axis) - self.of(i, now[i], axis) for i in moved)
            cost += weight * (abs(moment + shift) - abs(moment))
        overs, extra = {}, 0.0
        for i, at in moved.items():
            for j in range(self.n):
                if j == i or (j in moved and j < i):
                    continue
                overs[i, j] = self.overlap(i, at, j, moved.get(j, self.at[j]))
                extra += overs[i, j] - self.over[i][j]
        return cost, extra, overs

    def take(self, moved: dict[int, Standing], overs: dict[tuple[int, int], float]) -> None:
        """Make a move."""
        for k, (axis, _, _) in enumerate(self.balances):
            self.moments[k] += sum(
                self.of(i, at, axis) - self.of(i, self.at[i], axis) for i, at in moved.items()
            )
        for i, at in moved.items():
            self.at[i] = at
        for (i, j), depth in overs.items():
            self.over[i][j] = self.over[j][i] = depth


def anneal_one(
    board: Board, seed: int, seconds: float, hot: float = 3e4, cold: float = 60.0
) -> Annealed:
    """Anneal from `hot` to `cold` points in seconds of this process; tuned on three trays."""
    it = Annealing(board, seed)
    price, spread, warmth, moves = 400.0, 100.0, hot, 0
    cost, over = 0.0, sum(map(sum, it.over)) / 2.0
    best: list[Standing] | None = None
    best_cost, first, start = math.inf, None, time.process_time()
    relative = 0.0  # the cost relative to where the annealing began
    while True:
        if moves % 200 == 0:
            done = (time.process_time() - start) / seconds
            if done >= 1.0:
                break
            warmth = hot * (cold / hot) ** done
            spread = 6.0 + 120.0 * (1.0 - done) ** 2
            price = min(40_000.0, max(600.0, price * (1.03 if over > 0 else 0.96)))
            if done > 0.85:
                price = max(price, 15_000.0) + 60_000.0 * (done - 0.85) / 0.15
        moves += 1
        moved = it.proposal(spread)
        if moved is None:
            continue
        cost, extra, overs = it.change(moved)
        worse = cost + price * extra
        if worse <= 0 or it.random.random() < math.exp(-worse / warmth):
            it.take(moved, overs)
            relative += cost
            over += extra
            if over < 1e-9 and relative < best_cost - 0.5:
                best_cost, best = relative, list(it.at)
                first = time.process_time() - start if first is None else first
    return Annealed(best, best_cost, moves, first)
