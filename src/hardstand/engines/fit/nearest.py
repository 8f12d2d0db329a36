"""Distances from some pieces to the nearest of others, for few pairs and any limit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.follow_table import follow_table
from hardstand.engines.fit.measured_pairs import measured
from hardstand.engines.fit.model import Check
from hardstand.engines.fit.piece import Owner, Piece
from hardstand.engines.fit.stack import Index, spans, stack
from hardstand.engines.kept import Kept
from hardstand.figures import Input

Group = tuple[Sequence[Piece], Sequence[Piece]]


@dataclass(frozen=True, eq=False)
class Nearest:
    """The nearest pair found: the other's owner and subject, signed distance, its slopes, station."""

    owner: Owner
    subject: str
    distance_mm: float
    slopes: dict[Input, float]
    station_mm: float


def nearest(
    groups: Sequence[Group], kept: Kept | None = None, name: str = "pairs"
) -> list[Nearest | None]:
    """For each group the least signed distance of any of the first to any of the second pieces.

    None where a group has no pair. All groups are measured at once, and only those pairs whose
    extents along the axes are nearer than the farthest that the nearest pair can be. What was
    measured before is taken from `kept`, under this name.

    >>> from hardstand.engines.fit.shapes import box
    >>> from hardstand.engines.fit.piece import Owner
    >>> cubes = [box((x, 0.0, 0.0), (2.0, 2.0, 2.0)) for x in (0.0, 5.0, 9.0)]
    >>> a, b, c = (Piece(one, "item", Owner(n, n, "item", ""), n, ()) for one, n in zip(cubes, "abc"))
    >>> found = nearest([([a], [c, b]), ([a], [])])
    >>> found[0].subject, found[0].distance_mm, found[1]
    ('b', 3.0, None)
    """
    place: dict[int, int] = {}
    pieces: list[Piece] = []
    sides = [[_places(side, place, pieces) for side in group] for group in groups]
    bodies = stack([piece.body for piece in pieces])
    ends = spans(bodies)
    pairs = [_promising(own, others, ends) for own, others in sides]
    a, b = (np.concatenate([pair[k] for pair in pairs] or [_NONE]) for k in (0, 1))
    if not len(a):
        return [None] * len(groups)
    gaps = measured(bodies, a, b, kept, name)
    rows: list[int | None] = []
    start = 0
    for first, _ in pairs:
        stop = start + len(first)
        least = None if stop == start else start + int(gaps.distance_mm[start:stop].argmin())
        rows.append(least)
        start = stop
    chosen = np.array([k for k in rows if k is not None], dtype=np.intp)
    ones, others = [pieces[k] for k in a[chosen]], [pieces[k] for k in b[chosen]]
    stations = (gaps.point_a[chosen, 0] + gaps.point_b[chosen, 0]) / 2.0
    made = iter(_nearest(ones, others, gaps.distance_mm[chosen], gaps.normal[chosen], stations))
    return [None if k is None else next(made) for k in rows]


_NONE = np.zeros(0, dtype=np.intp)


def _places(side: Sequence[Piece], place: dict[int, int], pieces: list[Piece]) -> Index:
    """The places of some pieces among all; those that are not among them yet join at the end."""
    if not place.keys() >= set(map(id, side)):
        for one in side:
            if place.setdefault(id(one), len(pieces)) == len(pieces):
                pieces.append(one)
    return np.fromiter(map(place.__getitem__, map(id, side)), dtype=np.intp, count=len(side))


def _promising(own: Index, others: Index, ends: tuple[Floats, Floats]) -> tuple[Index, Index]:
    """The pairs of a group that may be its nearest."""
    if not len(own) or not len(others):
        return _NONE, _NONE
    low, high = ends
    before, after = low[own, None] - high[others], low[others] - high[own, None]
    least = np.linalg.norm(np.maximum(np.maximum(before, after), 0.0), axis=2)
    most = np.linalg.norm(np.minimum(before, after), axis=2)
    i, j = np.nonzero(least <= most.min())
    return own[i], others[j]


def _nearest(
    ones: Sequence[Piece],
    others: Sequence[Piece],
    distance_mm: Floats,
    normal: Floats,
    station_mm: Floats,
) -> list[Nearest]:
    """What is said of each pair (ones[k], others[k])."""
    table = follow_table([*ones, *others])
    a = np.arange(len(ones), dtype=np.intp)
    slope = table.slopes(a, a + len(ones), normal)
    return [
        Nearest(
            other.owner,
            other.subject,
            float(distance_mm[k]),
            {table.inputs[i]: float(slope[k, i]) for i in np.flatnonzero(slope[k]).tolist()},
            float(station_mm[k]),
        )
        for k, other in enumerate(others)
    ]


def add_nearest(
    found: Collected,
    asked: Sequence[tuple[str, Sequence[Piece], Sequence[Piece]]],
    kept: Kept | None = None,
) -> None:
    """Add, for each (slug, own pieces of one row, others), the distance to the nearest other."""
    found_nearest = nearest([(a, b) for _, a, b in asked], kept)
    for (slug, own, _), one in zip(asked, found_nearest, strict=True):
        if one is None:
            continue
        owner, subject = own[0].owner, own[0].subject
        address = f"fit.{slug}@{subject}+{one.subject}"
        label = f"distance, {owner.name} to {one.owner.name}"
        about = (owner.id, one.owner.id)
        check = Check(slug, f"fit.{slug}", about, address, station_mm=one.station_mm)
        found.add(check, one.distance_mm, label, one.slopes)
