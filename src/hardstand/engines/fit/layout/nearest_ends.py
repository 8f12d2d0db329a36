"""How near two ends of a lead can come at all: a table over the stances of the items they are on."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.fit.layout.board import Board
from hardstand.engines.fit.layout.pulls import Pull
from hardstand.engines.fit.layout.stances import Stance

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]


def level_apart(board: Board, pull: Pull) -> Ints:
    """Twice the difference in height of the two ends (s, t) by stance of either item."""
    near = [one.twice_z + one.shape.ports[pull.port][2] for one in board.stances[pull.item]]
    far = [one.twice_z + one.shape.ports[pull.other_port][2] for one in board.stances[pull.other]]
    return np.asarray(np.abs(np.array(near)[:, None] - np.array(far)), dtype=np.int64)


def nearest_apart(board: Board, pull: Pull) -> Ints:
    """Least distance of the two ends in half mm along x plus y (s, t), the items not colliding.

    The pair is looked at by itself: each item within the reach of its stance, on one tray at a
    displacement that does not collide. As in `insertion` the least is at a crossing of kinks and
    edges. 10**7 where the two stances cannot be had together.
    """
    one, other = board.stances[pull.item], board.stances[pull.other]
    found = np.zeros((len(one), len(other)), dtype=np.int64)
    for a, near in enumerate(one):
        for b, far in enumerate(other):
            rooms = (
                board.colliding(pull.item, a, pull.other, b)
                if near.tray == far.tray
                else np.zeros((0, 4), dtype=np.int64)
            )
            found[a, b] = _nearest(pull, near, far, rooms)
    return found


def _nearest(pull: Pull, near: Stance, far: Stance, rooms: Ints) -> int:
    at, end = near.shape.ports[pull.port], far.shape.ports[pull.other_port]
    off_x, off_y = end[0] - at[0], end[1] - at[1]
    xs = _crossings(off_x, far.x_mm - near.last_x_mm, far.last_x_mm - near.x_mm, rooms[:, :2])
    ys = _crossings(off_y, far.y_mm - near.last_y_mm, far.last_y_mm - near.y_mm, rooms[:, 2:])
    cost = np.abs(2 * xs + off_x)[:, None] + np.abs(2 * ys + off_y)
    for x0, x1, y0, y1 in rooms.tolist():
        cost[((xs > x0) & (xs < x1))[:, None] & ((ys > y0) & (ys < y1))] = 10**7
    return int(cost.min())


def _crossings(off: int, low: int, high: int, edges: Ints) -> Ints:
    every = np.concatenate(([-off // 2, -off // 2 + 1, low, high], edges.ravel()))
    return np.unique(np.clip(every, low, high))


def alone_cost(board: Board, i: int, fixed: list[Pull]) -> Floats:
    """Least cost of pulls from item i to fixed ends (s,) by stance, over its free positions."""
    return np.array([_alone(stance, fixed) for stance in board.stances[i]], dtype=np.float64)


def _alone(stance: Stance, fixed: list[Pull]) -> float:
    along = []
    for axis, first in ((0, stance.x_mm), (1, stance.y_mm)):
        at = 2.0 * (first + np.arange(stance.free.shape[axis]))
        along.append(
            sum(
                (
                    pull.weight[axis]
                    * np.abs(at + stance.shape.ports[pull.port][axis] - pull.twice[axis])
                    for pull in fixed
                ),
                np.zeros(at.size),
            )
        )
    level = sum(
        pull.weight[2] * abs(stance.twice_z + stance.shape.ports[pull.port][2] - pull.twice[2])
        for pull in fixed
    )
    total = along[0][:, None] + along[1]
    return float(total[stance.free].min()) + level
