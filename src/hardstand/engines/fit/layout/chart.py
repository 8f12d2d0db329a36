"""A board as padded arrays, so that many layouts can be moved and costed at once.

Stances of all items are numbered through. One more item with one stance at the origin stands for
fixed ends of leads, so that every pull has two items.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.fit.layout.problem import Item
from hardstand.engines.fit.layout.pulls import Pull
from hardstand.engines.fit.layout.stances import Stance

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Chart:
    """Arrays over items (n), stances (s, all items one after another), pulls of an item (d).

    first, count (n + 1): an item's stances; tray (s); low, high (s, 2): reach of the corner;
    size (s, 2); cost (s); mask: free positions of all stances one after another, mask_at (s) where
    each begins and mask_step (s) its cells along y. other (n, d), own (s, d, 3), far (s, d, 3) by
    the pulls' item and stance, weight (n, d, 3); back (n, d) which pull of the other item it is.
    rooms (s', s', r, 4): collisions by kind of shape; kind (s). mass (n).
    """

    first: Ints
    count: Ints
    tray: Ints
    low: Ints
    high: Ints
    size: Ints
    cost: Floats
    mask: NDArray[np.bool_]
    mask_at: Ints
    mask_step: Ints
    other: Ints
    own: Floats
    back: Ints
    weight: Floats
    rooms: NDArray[np.float32]
    kind: Ints
    mass: Floats


Stances = tuple[tuple[Stance, ...], ...]
Colliding = Callable[[int, int, int, int], Ints]


def make_chart(
    stances: Stances, pulls: tuple[Pull, ...], colliding: Colliding, items: tuple[Item, ...]
) -> Chart:
    """The arrays of a board's stances, pulls, collisions (of item, stance, item, stance), items."""
    choices = [stance for row in stances for stance in row]
    counts = [len(row) for row in stances]
    n = len(counts)
    first = np.concatenate(([0], np.cumsum(counts)))
    other, own, back, weight = _pulls(stances, pulls)
    kind, rooms = _rooms(stances, colliding)
    cells = [stance.free.ravel() for stance in choices]
    starts = np.concatenate(([0], np.cumsum([one.size for one in cells])))
    far = [(one.last_x_mm, one.last_y_mm) for one in choices]
    return Chart(
        first=first,
        count=np.array([*counts, 1]),
        tray=np.array([*(one.tray for one in choices), -1]),
        low=np.array([*((one.x_mm, one.y_mm) for one in choices), (0, 0)]),
        high=np.array([*far, (0, 0)]),
        size=np.array([*((one.shape.length_mm, one.shape.width_mm) for one in choices), (0, 0)]),
        cost=np.array([*(one.cost for one in choices), 0], dtype=np.float64),
        mask=np.concatenate([*cells, np.array([True])]),
        mask_at=starts,
        mask_step=np.array([*(one.free.shape[1] for one in choices), 1]),
        other=other,
        own=own,
        back=back,
        weight=weight,
        rooms=rooms,
        kind=kind,
        mass=np.array([*(item.mass_g for item in items), 0], dtype=np.float64)[: n + 1],
    )


def _pulls(stances: Stances, pulls: tuple[Pull, ...]) -> tuple[Ints, Floats, Ints, Floats]:
    """Pulls by item, padded with pulls of no weight: other, own, back, weight.

    own (s + 1, d, 3): twice the port's offset from the corner, the tray's height included; for the
    last row, which stands for fixed ends, see `back`: pulls there are numbered through.
    """
    rows: list[list[tuple[Pull, int, int]]] = [[] for _ in range(len(stances) + 1)]
    n = len(stances)
    for pull in pulls:
        j = pull.other if pull.other >= 0 else n
        rows[pull.item].append((pull, j, len(rows[j]) + (1 if j == pull.item else 0)))
        turned = Pull(j, pull.other_port, pull.item, pull.port, pull.twice, pull.weight)
        rows[j].append((turned, pull.item, len(rows[pull.item]) - 1))
    depth = max(1, *(len(row) for row in rows))
    other = np.full((n + 1, depth), n, dtype=np.int64)
    back = np.zeros((n + 1, depth), dtype=np.int64)
    weight = np.zeros((n + 1, depth, 3))
    total = sum(len(row) for row in stances)
    own = np.zeros((total + 1, depth, 3))
    at = 0
    for i, row in enumerate(rows):
        for d, (pull, j, k) in enumerate(row):
            other[i, d], back[i, d], weight[i, d] = j, k, pull.weight
            if i == n:
                own[total, d] = pull.twice
            else:
                for a, stance in enumerate(stances[i]):
                    own[at + a, d] = stance.shape.ports[pull.port]
                    own[at + a, d, 2] += stance.twice_z
        at += len(stances[i]) if i < n else 0
    # An item with fewer pulls than the fixed ends have is padded to no more than its own need.
    most = max(1, max((len(row) for row in rows[:n]), default=1))
    return other[:, :most], own, back[:, :most], weight[:, :most]


def _rooms(stances: Stances, colliding: Colliding) -> tuple[Ints, NDArray[np.float32]]:
    """Kinds of shape by stance, and the collisions of each two kinds, padded with empty ones."""
    kinds: dict[tuple[int, int], tuple[int, int]] = {}
    kind = []
    for i, row in enumerate(stances):
        for a, stance in enumerate(row):
            kinds.setdefault((i, stance.turn), (i, a))
            kind.append(list(kinds).index((i, stance.turn)))
    names = list(kinds.values())
    found = {
        (p, q): colliding(*one, *other)
        for p, one in enumerate(names)
        for q, other in enumerate(names)
        if one[0] != other[0]
    }
    most = max((rows.shape[0] for rows in found.values()), default=1)
    rooms = np.zeros((len(names) + 1, len(names) + 1, max(1, most), 4), dtype=np.float32)
    for (p, q), rows in found.items():
        rooms[p, q, : rows.shape[0]] = rows
    return np.array([*kind, len(names)]), rooms
