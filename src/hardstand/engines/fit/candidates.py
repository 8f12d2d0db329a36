"""Which pairs of pieces are looked at: those near enough to matter, and each item's neighbours."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.broad_phase import near_spans
from hardstand.engines.fit.pairing import LIMIT_OF, RANK, rule_of
from hardstand.engines.fit.piece import Piece, Solids
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
    i, j = near_spans(low, high, near)
    pairs = set(zip(i.tolist(), j.tolist(), strict=True))
    hot = [k for k, piece in enumerate(pieces) if piece.role == "hot" or _is_hot(piece)]
    for k in hot:
        apart = _apart(low, high, k)
        pairs.update(_ordered(k, np.flatnonzero(apart <= _low(limits, "hot-gap") + spare)))
    pairs.update(_neighbours(solids))
    return _ruled(pieces, sorted(pairs))


def _low(limits: Mapping[str, Limit], slug: str) -> float:
    return limits[LIMIT_OF[slug]].low or 0.0


def _is_hot(piece: Piece) -> bool:
    return piece.role == "keep_out" and piece.owner.kind == "hot"


def _apart(low: Floats, high: Floats, k: int) -> Floats:
    """Distance (P,) of every piece's box along the axes from that of piece k, from below."""
    gap = np.maximum(np.maximum(low - high[k], low[k] - high), 0.0)
    return np.asarray(np.sqrt(np.einsum("pi,pi->p", gap, gap)))


def _neighbours(solids: Solids) -> set[tuple[int, int]]:
    """For each piece of an item the nearest pieces of other rows, of each row the nearest."""
    pieces = solids.pieces
    solid = np.array(solids.of_role("item", "keep_out", "tray"), dtype=np.intp)
    # the pieces of one row follow one another
    named = [pieces[k].subject for k in solid.tolist()]
    starts = [n for n in range(len(named)) if n == 0 or named[n] != named[n - 1]]
    ends = [*starts[1:], len(named)]
    low, high = (np.ascontiguousarray(one[solid].T) for one in (solids.low_mm, solids.high_mm))
    found: set[tuple[int, int]] = set()
    for k in solids.of_role("item"):
        own_low, own_high = solids.low_mm[k, :, None], solids.high_mm[k, :, None]
        gap = np.maximum(np.maximum(low - own_high, own_low - high), 0.0)
        square = np.einsum("ip,ip->p", gap, gap)
        count = 0
        for row in np.minimum.reduceat(square, starts).argsort(kind="stable").tolist():
            first, end = starts[row], ends[row]
            if rule_of(pieces[k], pieces[solid[first]]) is None:
                continue
            other = int(solid[first + int(square[first:end].argmin())])
            found.add((min(k, other), max(k, other)))
            count += 1
            if count == _LOOKED_AT:
                break
    return found


def _ordered(k: int, others: Index) -> set[tuple[int, int]]:
    return {(min(k, o), max(k, o)) for o in others.tolist() if o != k}


def _ruled(
    pieces: Sequence[Piece], pairs: Sequence[tuple[int, int]]
) -> tuple[Index, Index, list[str]]:
    a, b, slugs = [], [], []
    for i, j in pairs:
        slug = rule_of(pieces[i], pieces[j])
        if slug is None:
            continue
        swap = RANK[pieces[i].role] > RANK[pieces[j].role]
        a.append(j if swap else i)
        b.append(i if swap else j)
        slugs.append(slug)
    return np.array(a, dtype=np.intp), np.array(b, dtype=np.intp), slugs
