"""Signed distances of many pairs of pieces, cheap kinds apart from dear ones."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from hardstand.engines.fit.body import Body, Floats
from hardstand.engines.fit.closest import closest
from hardstand.engines.fit.separation import Separations, separation
from hardstand.engines.fit.stack import Bools, Index, Stack, stack
from hardstand.engines.fit.support import pairs
from hardstand.engines.kept import Kept


def measured(
    bodies: Sequence[Body] | Stack,
    a: Index,
    b: Index,
    kept: Kept | None = None,
    name: str = "pairs",
) -> Separations:
    """Separations of the pairs (a[k], b[k]), as `separation` gives them.

    Corner sets are kept apart from boxes and cylinders, so that a plate with many corners does not
    make every pair carry as many. Pairs that `kept` holds are not measured again.

    >>> from hardstand.engines.fit.shapes import box
    >>> two = [box((0.0, 0.0, 0.0), (2.0, 2.0, 2.0)), box((5.0, 0.0, 0.0), (2.0, 2.0, 2.0))]
    >>> measured(two, np.array([0]), np.array([1])).distance_mm.tolist()
    [3.0]
    """
    every = bodies if isinstance(bodies, Stack) else stack(bodies)
    if kept is None or not len(a):
        return measured_stacks(every.take(a), every.take(b))
    content = every.contents()
    keys = [(content[i], content[j]) for i, j in zip(a.tolist(), b.tolist(), strict=True)]
    return _of_rows(
        kept.rows(
            name, keys, lambda k: _as_rows(measured_stacks(every.take(a[k]), every.take(b[k])))
        )
    )


def _as_rows(found: Separations) -> Floats:
    columns = [getattr(found, name) for name in Separations.__dataclass_fields__]
    return np.column_stack(columns).astype(np.float64)


def _of_rows(rows: Floats) -> Separations:
    distance, normal, point_a, point_b, *rest = np.split(rows, (1, 4, 7, 10, 11, 12), axis=1)
    gap, converged, iterations = (one[:, 0] for one in rest)
    return Separations(
        distance[:, 0], normal, point_a, point_b, gap, converged > 0.0, iterations.astype(np.intp)
    )


def measured_stacks(first: Stack, second: Stack) -> Separations:
    """Separations of first[k] and second[k], corner sets apart from the rest as in `measured`."""
    dear = _cornered(first) | _cornered(second)
    parts, order = [], []
    for rows, plain in ((np.flatnonzero(~dear), True), (np.flatnonzero(dear), False)):
        if len(rows):
            one, other = first.take(rows), second.take(rows)
            parts.append(separation(*((_plain(one), _plain(other)) if plain else (one, other))))
            order.append(rows)
    if not parts:
        return separation([], [])
    back = np.argsort(np.concatenate(order), kind="stable")
    return Separations(
        *(
            np.concatenate([getattr(part, name) for part in parts])[back]
            for name in Separations.__dataclass_fields__
        )
    )


def _cornered(bodies: Stack) -> Bools:
    return np.asarray(bodies.corners_mm.any(axis=(1, 2)), dtype=bool)


def _plain(bodies: Stack) -> Stack:
    return replace(bodies, corners_mm=bodies.corners_mm[:, :0])


def measured_unless_overlapping(first: Stack, second: Stack) -> tuple[Floats, Floats]:
    """Distance (N,) and normal (N, 3) of first[k] and second[k], minus infinity where cores overlap.

    Many times quicker than `measured` where solids do overlap, for when it is enough to know that.

    >>> from hardstand.engines.fit.shapes import box
    >>> one, two = box((0.0, 0.0, 0.0), (2.0, 2.0, 2.0)), box((1.0, 0.0, 0.0), (2.0, 2.0, 2.0))
    >>> measured_unless_overlapping(stack([one]), stack([two]))[0].tolist()
    [-inf]
    """
    near = closest(pairs(first, second))
    across = near.point_b - near.point_a
    length = np.linalg.norm(across, axis=1)
    distance = np.where(near.overlap, -np.inf, length - first.margin_mm - second.margin_mm)
    normal = across / np.where(length > 0.0, length, 1.0)[:, None]
    normal[near.overlap] = (1.0, 0.0, 0.0)
    return distance, np.einsum("nij,nj->ni", first.rotation, normal)
