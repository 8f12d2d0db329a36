"""The best place for one item while all others stand still: exact, over every position.

With the others still, the cost of a lead is a sum of a function of x and one of y, each convex in
pieces. Its least value over the free positions lies where x is at a kink or held up by an edge, and
so for y: only those crossings are looked at.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.fit.layout.board import Board, Standing
from hardstand.engines.fit.layout.chart import Chart
from hardstand.engines.fit.layout.stances import Stance

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]


@dataclass
class State:
    """Where the items stand during a search; None where one is not placed.

    `moment`: twice mass times middle by balance, of all items; one that is not placed counts
    where it stood last, or where its share of the target is.
    """

    board: Board
    standings: list[Standing | None]
    moments: list[list[float]] = field(init=False)

    @property
    def chart(self) -> Chart:
        """The board as arrays."""
        return self.board.chart

    def __post_init__(self) -> None:
        items = self.board.problem.items
        total = max(1, sum(item.mass_g for item in items))
        self.moments = [
            [2.0 * balance.target_g_mm * item.mass_g / total for item in items]
            for balance in self.board.problem.balances
        ]
        for i, standing in enumerate(self.standings):
            if standing is not None:
                self.put(i, standing)

    def put(self, i: int, standing: Standing) -> None:
        """Let item i stand there."""
        self.standings[i] = standing
        shape = self.board.stances[i][standing[0]].shape
        for balance, row in zip(self.board.problem.balances, self.moments, strict=True):
            twice = (
                2 * standing[1] + shape.length_mm
                if balance.axis == "x"
                else 2 * standing[2] + shape.width_mm
            )
            row[i] = float(self.board.problem.items[i].mass_g * twice)

    def point(self, i: int, port: str) -> tuple[int, int, int]:
        """Twice the place of a port of a placed item."""
        standing = self.standings[i]
        assert standing is not None
        stance = self.board.stances[i][standing[0]]
        at = stance.shape.ports[port]
        return 2 * standing[1] + at[0], 2 * standing[2] + at[1], stance.twice_z + at[2]


@dataclass(frozen=True, slots=True)
class Insertion:
    """A place for an item and what it adds to the cost."""

    cost: float
    standing: Standing


def best_insertion(state: State, i: int, below: float = np.inf) -> Insertion | None:
    """The cheapest legal place of item i; None where none costs less than `below`.

    The stances are looked at in the order of what they would cost if nothing stood in the way, and
    only while that is less than the best place found.
    """
    ends = _ends(state, i)
    tables = [_along(state, i, ends, axis) for axis in (0, 1)]
    choices = state.board.stances[i]
    level = (np.abs(ends.near[:, :, 2] - ends.twice[:, 2]) @ ends.weight[:, 2]) + ends.cost
    least = level + tables[0].least + tables[1].least
    found: Insertion | None = None
    for a in np.argsort(least, kind="stable").tolist():
        if least[a] >= below:
            break
        best = _in_stance(state, i, a, choices[a], tables, float(level[a]), below)
        if best is not None:
            found, below = best, best.cost
    return found


@dataclass(frozen=True)
class _Ends:
    """The pulls of an item that lead somewhere (d): twice the far ends (d, 3), weights (d, 3).

    near (s, d, 3): twice the ports' offsets from the corner in each stance, tray's height included;
    cost (s): of the stance itself.
    """

    twice: Floats
    weight: Floats
    near: Floats
    cost: Floats


def _ends(state: State, i: int) -> _Ends:
    table = state.chart
    kept, twice = [], []
    for d, pull in enumerate(state.board.pulls_of[i]):
        if pull.other < 0:
            twice.append(pull.twice)
        elif state.standings[pull.other] is None:
            continue
        else:
            twice.append(state.point(pull.other, pull.other_port))
        kept.append(d)
    first, last = table.first[i], table.first[i + 1]
    return _Ends(
        np.array(twice, dtype=np.float64).reshape(-1, 3),
        table.weight[i, kept],
        table.own[first:last, kept],
        table.cost[first:last],
    )


@dataclass(frozen=True)
class _Along:
    """Cost along one axis: twice where each port wants the corner (s, d), weights (d).

    mass, off (s), balance_weight for each balance along it; kinks (s, k) in mm, least (s): the
    least cost within each stance's reach.
    """

    reach: Floats
    weight: Floats
    balances: tuple[tuple[int, Floats, int], ...]
    kinks: Floats
    least: Floats

    def cost(self, a: int, at: Ints) -> Floats:
        """The cost (n,) of stance a at coordinates (n,) of the corner in mm."""
        found = np.abs(2.0 * at[:, None] - self.reach[a]) @ self.weight
        for mass, off, weight in self.balances:
            found += weight * np.abs(2.0 * mass * at + off[a])
        return np.asarray(found)


def _along(state: State, i: int, ends: _Ends, axis: int) -> _Along:
    """The cost along x (0) or y (1) with the others still, for every stance at once."""
    table, mass = state.chart, state.board.problem.items[i].mass_g
    rows = slice(table.first[i], table.first[i + 1])
    reach, weight = ends.twice[:, axis] - ends.near[:, :, axis], ends.weight[:, axis]
    low, high = table.low[rows, axis], table.high[rows, axis]
    half = np.floor(reach / 2.0)
    kinks, balances = [half, half + 1.0, low[:, None], high[:, None]], []
    for wish, moments in zip(state.board.problem.balances, state.moments, strict=True):
        if wish.axis == "xy"[axis] and mass:
            rest = sum(moments) - moments[i] - 2.0 * wish.target_g_mm
            off = rest + mass * table.size[rows, axis].astype(np.float64)
            balances.append((mass, off, wish.weight))
            middle = np.floor(-off / (2.0 * mass))[:, None]
            kinks += [middle, middle + 1.0]
    every = np.clip(np.concatenate(kinks, axis=1), low[:, None], high[:, None])
    cost = np.abs(2.0 * every[:, :, None] - reach[:, None, :]) @ weight
    for one, off, factor in balances:
        cost += factor * np.abs(2.0 * one * every + off[:, None])
    return _Along(reach, weight, tuple(balances), every, cost.min(axis=1))


def _in_stance(
    state: State,
    i: int,
    a: int,
    stance: Stance,
    tables: list[_Along],
    level: float,
    below: float,
) -> Insertion | None:
    """The cheapest place in one stance, if it costs less than `below`."""
    blocked = _blocked(state, i, a, stance.tray)
    xs = _crossings(
        stance.x_mm, stance.last_x_mm, tables[0].kinks[a], stance.edges_x_mm, blocked[:, :2]
    )
    ys = _crossings(
        stance.y_mm, stance.last_y_mm, tables[1].kinks[a], stance.edges_y_mm, blocked[:, 2:]
    )
    free = stance.free[(xs - stance.x_mm)[:, None], ys - stance.y_mm]
    if blocked.size:
        from_x, from_y = (
            np.searchsorted(xs, blocked[:, 0], "right"),
            np.searchsorted(ys, blocked[:, 2], "right"),
        )
        past_x, past_y = np.searchsorted(xs, blocked[:, 1]), np.searchsorted(ys, blocked[:, 3])
        for x0, x1, y0, y1 in np.stack((from_x, past_x, from_y, past_y), axis=1).tolist():
            free[x0:x1, y0:y1] = False
    total = tables[0].cost(a, xs)[:, None] + tables[1].cost(a, ys)
    total[~free] = np.inf
    if state.board.problem.apart:
        total += _apart(state, i, stance, xs, ys)
    row, column = divmod(int(total.argmin()), total.shape[1])
    cost = float(total[row, column]) + level
    if not cost < below:
        return None
    return Insertion(cost, (a, int(xs[row]), int(ys[column])))


def _blocked(state: State, i: int, a: int, tray: int) -> Ints:
    """Open rectangles of corners of item i that collide with what is placed (n, 4)."""
    rows = []
    for j, standing in enumerate(state.standings):
        if j == i or standing is None or state.board.stances[j][standing[0]].tray != tray:
            continue
        x, y = standing[1], standing[2]
        rows.append(state.board.colliding(j, standing[0], i, a) + np.array((x, x, y, y)))
    return np.concatenate(rows) if rows else np.zeros((0, 4), dtype=np.int64)


def _crossings(first: int, last: int, kinks: Floats, edges: Ints, blocked: Ints) -> Ints:
    """Sorted coordinates worth looking at between first and last."""
    every = np.concatenate((kinks.astype(np.int64), edges, blocked.ravel()))
    every = np.sort(every[(every >= first) & (every <= last)])
    return every[np.concatenate(([True], every[1:] != every[:-1]))]


def _apart(state: State, i: int, stance: Stance, xs: Ints, ys: Ints) -> NDArray[np.float64]:
    """What standing too near to others costs (n, m) at crossings."""
    found = np.zeros((xs.size, ys.size))
    own = state.board.problem.items[i].id
    for wish in state.board.problem.apart:
        if own not in wish.items:
            continue
        other = state.board.numbers[wish.items[wish.items[0] == own]]
        if state.standings[other] is None:
            continue
        x, y, _ = state.point(other, "")
        off = np.abs(2 * xs + stance.shape.length_mm - x)[:, None] + np.abs(
            2 * ys + stance.shape.width_mm - y
        )
        found += wish.weight * np.maximum(0, 2 * wish.distance_mm - off)
    return found
