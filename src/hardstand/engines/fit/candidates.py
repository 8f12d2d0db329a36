"""Which pairs of pieces are looked at: those near enough to matter, and each item's neighbours."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.broad_phase import near_spans
from hardstand.engines.fit.pairing import LIMIT_OF, RANK, rule_of
from hardstand.engines.fit.piece import FIXED, Piece, Solids
from hardstand.engines.fit.stack import Index
from hardstand.findings import Limit

SPARE_MM = 10.0  # a distance with more than this to spare beyond its limit and U is not looked at
NEIGHBOURS = 3
# Boxes along the axes overrate how near things are, so a few more are looked at than are kept.
_LOOKED_AT = 5
_FAR = ("hot-gap",)


def candidate_pairs(
    solids: Solids, limits: Mapping[str, Limit], most_u_mm: float
) -> tuple[Index, Index, list[str]]:
    """Pairs (M,), (M,) of piece indices, lower rank first, and the rule each falls under.

    Among them are all pairs nearer than their limit + 2 `most_u_mm` + 10 mm, and for each item the
    nearest others.
    """
    pieces, low, high = solids.pieces, solids.low_mm, solids.high_mm
    if len(pieces) < 2:
        none = np.zeros(0, dtype=np.intp)
        return none, none, []
    spare = SPARE_MM + 2.0 * most_u_mm
    near = max(_low(limits, slug) for slug in LIMIT_OF if slug not in _FAR) + spare
    found = [near_spans(low, high, near)]
    hot = [k for k, piece in enumerate(pieces) if piece.role == "hot" or _is_hot(piece)]
    for k in hot:
        others = np.flatnonzero(_apart(low, high, k) <= _low(limits, "hot-gap") + spare)
        others = others[others != k]
        found.append((np.minimum(others, k), np.maximum(others, k)))
    found.append(_neighbours(solids))
    i, j = (np.concatenate([pair[side] for pair in found]) for side in (0, 1))
    return _ruled(pieces, *np.divmod(np.unique(i * len(pieces) + j), len(pieces)))


def _low(limits: Mapping[str, Limit], slug: str) -> float:
    return limits[LIMIT_OF[slug]].low or 0.0


def _is_hot(piece: Piece) -> bool:
    return piece.role == "keep_out" and piece.owner.kind == "hot"


def _apart(low: Floats, high: Floats, k: int) -> Floats:
    """Distance (P,) of every piece's box along the axes from that of piece k, from below."""
    gap = np.maximum(np.maximum(low - high[k], low[k] - high), 0.0)
    return np.asarray(np.sqrt(np.einsum("pi,pi->p", gap, gap)))


def _neighbours(solids: Solids) -> tuple[Index, Index]:
    """For each piece of an item the nearest pieces of other rows, of each row the nearest."""
    pieces = solids.pieces
    solid = np.array(solids.of_role("item", "keep_out", "tray"), dtype=np.intp)
    own = np.array(solids.of_role("item"), dtype=np.intp)
    if not len(own):
        return own, own
    # the pieces of one row follow one another
    named = [pieces[k].subject for k in solid.tolist()]
    starts = [n for n in range(len(named)) if n == 0 or named[n] != named[n - 1]]
    ends = [*starts[1:], len(named)]
    square = _squares(solids.low_mm, solids.high_mm, own, solid)
    by_row = np.minimum.reduceat(square, starts, axis=1)
    found: list[tuple[int, int]] = []
    asked, count = -1, 0
    for n, row in _nearest_first(by_row, _LOOKED_AT + _most_unruled(solids)):
        if n != asked:
            asked, count = n, 0
        if count < _LOOKED_AT:
            first, end, k = starts[row], ends[row], int(own[n])
            if rule_of(pieces[k], pieces[solid[first]]) is not None:
                other = first if end == first + 1 else first + int(square[n, first:end].argmin())
                found.append((k, int(solid[other])))
                count += 1
    pairs = np.array(found, dtype=np.intp).reshape(-1, 2)
    return pairs.min(axis=1), pairs.max(axis=1)


def _squares(low: Floats, high: Floats, own: Index, others: Index) -> Floats:
    """Squared distance (K, P) of the boxes along the axes of some pieces from those of others."""
    square = np.zeros((len(own), len(others)))
    for axis in range(3):
        before = low[others, axis] - high[own, None, axis]
        gap = np.maximum(np.maximum(before, low[own, None, axis] - high[others, axis]), 0.0)
        square += gap * gap
    return square


def _most_unruled(solids: Solids) -> int:
    """The most rows that no rule sets against one item: itself, its tray, what it is mounted on.

    What supports names may be an item, a keep-out and a tray of one id.
    """
    supports = [frame.item.supports for frame in solids.frames.values()]
    carried = Counter(name for names in supports for name in set(names))
    return 2 + 3 * max(map(len, supports), default=0) + max(carried.values(), default=0)


def _nearest_first(by_row: Floats, enough: int) -> Iterator[tuple[int, int]]:
    """For each of K pieces the `enough` least of its rows (K, R) at least, nearest first.

    Equally near ones come in their order.
    """
    enough = min(by_row.shape[1], enough)
    limit = np.partition(by_row, enough - 1, axis=1)[:, enough - 1 : enough]
    n, row = np.nonzero(by_row <= limit)
    order = np.lexsort((row, by_row[n, row], n))
    return iter(zip(n[order].tolist(), row[order].tolist(), strict=True))


def _ruled(pieces: Sequence[Piece], i: Index, j: Index) -> tuple[Index, Index, list[str]]:
    """Those of the pairs (i[k], j[k]) that fall under a rule, lower rank first, and the rules."""
    fixed = np.array([piece.role in FIXED for piece in pieces], dtype=bool)
    places: dict[tuple[str, str], int] = {}
    owner = np.array(
        [places.setdefault((one.owner.table, one.owner.id), len(places)) for one in pieces]
    )
    asked = ~(fixed[i] & fixed[j]) & (owner[i] != owner[j])
    a, b, slugs = [], [], []
    for one, other in zip(i[asked].tolist(), j[asked].tolist(), strict=True):
        slug = rule_of(pieces[one], pieces[other])
        if slug is None:
            continue
        swap = RANK[pieces[one].role] > RANK[pieces[other].role]
        a.append(other if swap else one)
        b.append(one if swap else other)
        slugs.append(slug)
    return np.array(a, dtype=np.intp), np.array(b, dtype=np.intp), slugs
