"""One item against everything else, at any place it might be moved to."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from hardstand.engines.fit.body import Body, Floats
from hardstand.engines.fit.follow_table import FollowTable, follow_table
from hardstand.engines.fit.measured_pairs import measured_stacks, measured_unless_overlapping
from hardstand.engines.fit.pairing import LIMIT_OF, rule_of
from hardstand.engines.fit.piece import Piece, Solids
from hardstand.engines.fit.stack import Bools, Index, Stack, stack
from hardstand.findings import Limit

_SAME_MM = 1e-6
_CALL = 400  # a batch costs at least as much as so many distances
_BATCH, _ASKED = 64, 16
_MOST_ASKED = 160  # moves that the last question may refuse before the search gives up


@dataclass
class Budget:
    """How many distances may still be measured: searches end when it is spent, alike each time."""

    left: int

    def spend(self, distances: int) -> None:
        """Count a batch of distances; many small batches cost more than one large one."""
        self.left -= max(distances, _CALL)


@dataclass(frozen=True, eq=False)
class Neighbourhood:
    """The pairs (N) of an item's own pieces with others that come near within the search.

    pieces are those concerned, with their bodies as one stack and what they follow as one table;
    own, other (N,): indices of them; low_mm (N,): the limit of each; before_mm (N,): distance less
    limit less U where the item stands now; u_axis_mm (N, 3): u of a distance along each axis;
    square (N,): both are boxes along the axes, whose distance is that of their extents; gap_low,
    gap_high (N, 3): room along each axis ahead of and behind the other, where the item stands now.
    """

    pieces: Sequence[Piece]
    bodies: Stack
    table: FollowTable
    own: Index
    other: Index
    low_mm: Floats
    before_mm: Floats
    u_axis_mm: Floats
    square: Bools
    gap_low: Floats
    gap_high: Floats

    def spare(self, rows: Index, by_mm: Floats, *, quick: bool = False) -> Floats:
        """Distance less limit less U (R,) of pairs `rows` with the item moved by `by_mm` (R, 3).

        `quick` leaves the depth of overlapping solids open: minus infinity.
        """
        own, other = self.bodies.take(self.own[rows]), self.bodies.take(self.other[rows])
        own = replace(own, centre_mm=own.centre_mm + by_mm)
        if quick:
            distance, normal = measured_unless_overlapping(own, other)
        else:
            gaps = measured_stacks(own, other)
            distance, normal = gaps.distance_mm, gaps.normal
        slope = self.table.slopes(self.own[rows], self.other[rows], normal)
        variance = slope**2 @ np.array([one.u for one in self.table.inputs]) ** 2
        return np.asarray(distance - self.low_mm[rows] - 2.0 * np.sqrt(variance))

    def first(
        self, by_mm: Floats, cleared: Bools, also: Callable[[Floats], Bools], budget: Budget
    ) -> int | None:
        """Index of the first of the moves `by_mm` (C, 3) that clears pairs `cleared`, spoiling none.

        A pair that is under its limit now may stay so, but not come nearer. `also` is asked last
        about the moves (K, 3) that pass, and answers for each (K,). None where there is no such move
        or the budget is spent.
        """
        must = np.where(cleared | (self.before_mm >= 0.0), 0.0, self.before_mm - _SAME_MM)
        alive, asked = np.flatnonzero(self._square_allows(by_mm, must)), 0
        for start in range(0, len(alive), _BATCH):
            batch = alive[start : start + _BATCH]
            good = batch[self._rest_allows(by_mm[batch], must, budget)]
            for part in np.split(good, range(_ASKED, len(good), _ASKED)):
                fine = part[also(by_mm[part])] if len(part) else part
                if len(fine):
                    return int(fine[0])
                asked += len(part)
            if asked >= _MOST_ASKED or budget.left <= 0:
                break
        return None

    def _square_allows(self, by_mm: Floats, must: Floats) -> Bools:
        """Whether (C,) the pairs of boxes along the axes allow each move: their extents tell all."""
        rows = np.flatnonzero(self.square)
        gap = self._gaps(by_mm, rows)
        widest = gap.max(axis=2)
        distance = np.where(widest > 0.0, np.linalg.norm(np.maximum(gap, 0.0), axis=2), widest)
        counts = (gap > 0.0) | (gap == widest[:, :, None])
        u = (counts * self.u_axis_mm[rows]).max(axis=2)
        spare = distance - self.low_mm[rows] - 2.0 * u
        return np.asarray((spare >= must[rows]).all(axis=1))

    def _rest_allows(self, by_mm: Floats, must: Floats, budget: Budget) -> Bools:
        """Whether (C,) all other pairs allow each move."""
        rest = np.flatnonzero(~self.square)
        gap = np.linalg.norm(np.maximum(self._gaps(by_mm, rest), 0.0), axis=2)
        bound = self.table.bound_u()
        u = np.hypot(bound[self.own[rest]], bound[self.other[rest]])
        which, column = np.nonzero(gap < self.low_mm[rest] + must[rest] + 2.0 * np.sqrt(2.0) * u)
        good = np.ones(len(by_mm), dtype=bool)
        if not len(which):
            return good
        budget.spend(len(which))
        rows, ways = rest[column], by_mm[which]
        spare = self.spare(rows, ways, quick=True)
        deep = np.flatnonzero(np.isneginf(spare) & (must[rows] < 0.0))
        if len(deep):
            spare[deep] = self.spare(rows[deep], ways[deep])
        good[which[spare < must[rows]]] = False
        return good

    def _gaps(self, by_mm: Floats, rows: Index) -> Floats:
        """Room (C, R, 3) along each axis between the extents, negative where they overlap."""
        shift = by_mm[:, None]
        return np.asarray(np.maximum(self.gap_low[rows] + shift, self.gap_high[rows] - shift))


def neighbourhood(
    solids: Solids, item_id: str, limits: Mapping[str, Limit], reach_mm: float
) -> Neighbourhood:
    """All pairs that a move of up to `reach_mm` could bring under their limit."""
    own, other, low = [], [], []
    pieces, lowest, highest = solids.pieces, solids.low_mm, solids.high_mm
    most_u = float(solids.table.bound_u().max())
    farthest = max(limits[one].low or 0.0 for one in LIMIT_OF.values())
    mine = [k for k, p in enumerate(pieces) if p.owner.id == item_id and p.owner.table == "item"]
    for i in mine:
        gap = np.maximum(np.maximum(lowest - highest[i], lowest[i] - highest), 0.0)
        apart = np.linalg.norm(gap, axis=1) - reach_mm - 4.0 * most_u
        for j in np.flatnonzero(apart < farthest).tolist():
            slug = rule_of(pieces[i], pieces[j])
            bound = 0.0 if slug is None else limits[LIMIT_OF[slug]].low or 0.0
            if slug is not None and apart[j] < bound:
                own.append(i)
                other.append(j)
                low.append(bound)
    used, place = np.unique(np.array([*own, *other], dtype=np.intp), return_inverse=True)
    chosen = [pieces[k] for k in used.tolist()]
    a, b = np.split(place.astype(np.intp), 2)
    table = follow_table(chosen)
    u = np.array([one.u for one in table.inputs]) ** 2
    axes = [np.sqrt(table.slopes(a, b, np.tile(row, (len(a), 1))) ** 2 @ u) for row in np.eye(3)]
    straight = np.array([_along_axes(piece.body) for piece in chosen], dtype=bool)
    lowest, highest = lowest[used], highest[used]
    found = Neighbourhood(
        chosen,
        stack([piece.body for piece in chosen]),
        table,
        a,
        b,
        np.array(low, dtype=np.float64),
        np.zeros(len(low)),
        np.column_stack(axes),
        straight[a] & straight[b],
        lowest[a] - highest[b],
        lowest[b] - highest[a],
    )
    before = found.spare(np.arange(len(low)), np.zeros((len(low), 3)))
    return replace(found, before_mm=before)


def _along_axes(body: Body) -> bool:
    turned = np.abs(body.rotation)
    return body.kind == "box" and body.margin_mm == 0.0 and bool(((turned > 0.5) == turned).all())


def between(near: Neighbourhood, ids: frozenset[str]) -> Bools:
    """Which (N,) of the pairs are between the two rows with these ids."""
    pairs = zip(near.own.tolist(), near.other.tolist(), strict=True)
    return np.array(
        [{near.pieces[i].owner.id, near.pieces[j].owner.id} == ids for i, j in pairs], dtype=bool
    )
