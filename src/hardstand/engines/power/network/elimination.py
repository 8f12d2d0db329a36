"""Linear equations of one network for many cases at once, by an elimination laid down beforehand.

A network of leads is nearly a tree, so that eliminating a node touches one or two others. The order
is found once (least number of neighbours); each step then works on arrays over the cases. Entries
that are the same in all cases stay arrays of one: the linear parts of the network are thus reduced
to the ports of the others without being told to.

There is no pivoting: each column of a conductance matrix is dominated by its diagonal, or nearly so
where a load draws more at less voltage. What comes out is checked by the currents at every node.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Step:
    """Eliminate `node` from the equations of its `neighbours`: positions of the entries needed.

    `diagonal` of the node; `column` (rows of the neighbours in its column), `row` (its row);
    `filled[i][j]`, the entry of neighbour i and neighbour j.
    """

    node: int
    neighbours: tuple[int, ...]
    diagonal: int
    column: tuple[int, ...]
    row: tuple[int, ...]
    filled: tuple[tuple[int, ...], ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """Where each entry (row, column) of the matrix is kept, and the steps of the elimination."""

    at: dict[tuple[int, int], int]
    steps: tuple[Step, ...]


def plan(count: int, pairs: Iterable[tuple[int, int]], last: set[int] | None = None) -> Plan:
    """Lay down an elimination for `count` nodes that elements join in `pairs`.

    Of nodes with equally few neighbours those not in `last` go first. Indices of `count` and above
    (ground) are left out.

    >>> [step.node for step in plan(3, [(0, 1), (1, 2), (1, 3)]).steps]
    [0, 1, 2]

    Source: minimum degree ordering; A. George and J. W. H. Liu, SIAM Review 31 (1989) 1 to 19.
    """
    around: dict[int, set[int]] = {node: set() for node in range(count)}
    for a, b in pairs:
        if a < count and b < count and a != b:
            around[a].add(b)
            around[b].add(a)
    late = last or set()
    at = {(node, node): node for node in range(count)}
    raw = []
    while around:
        node = min(around, key=lambda one: (len(around[one]), one in late, one))
        near = around.pop(node)
        for one in near:
            around[one] |= near
            around[one] -= {one, node}
        raw.append((node, tuple(sorted(near))))

    def entry(row: int, column: int) -> int:
        return at.setdefault((row, column), len(at))

    steps = [
        Step(
            node,
            near,
            node,
            tuple(entry(one, node) for one in near),
            tuple(entry(node, one) for one in near),
            tuple(tuple(entry(one, other) for other in near) for one in near),
        )
        for node, near in raw
    ]
    return Plan(at, tuple(steps))


def eliminate(steps: tuple[Step, ...], matrix: list[Floats], right: list[Floats]) -> list[Floats]:
    """Solve matrix x = right for all cases; both lists are used up.

    Parameters: `steps` of a plan; `matrix`, one array a kept entry, and `right`, one a node, each of
    the length of the cases or of one.

    Returns one array a node.

    >>> laid = plan(2, [(0, 1)])
    >>> entries = {(0, 0): 3.0, (1, 1): 2.0, (0, 1): -1.0, (1, 0): -1.0}
    >>> matrix = [np.array([entries[pair]]) for pair in laid.at]
    >>> [float(x[0]) for x in eliminate(laid.steps, matrix, [np.array([5.0]), np.array([0.0])])]
    [2.0, 1.0]
    """
    inverses = []
    for step in steps:
        inverse = 1.0 / matrix[step.diagonal]
        inverses.append(inverse)
        own = right[step.node]
        row = [matrix[place] for place in step.row]
        for one, place, filled in zip(step.neighbours, step.column, step.filled, strict=True):
            share = matrix[place] * inverse
            right[one] = right[one] - share * own
            for target, value in zip(filled, row, strict=True):
                matrix[target] = matrix[target] - share * value
    for step, inverse in zip(reversed(steps), reversed(inverses), strict=True):
        total = right[step.node]
        for one, place in zip(step.neighbours, step.row, strict=True):
            total = total - matrix[place] * right[one]
        right[step.node] = total * inverse
    return right
