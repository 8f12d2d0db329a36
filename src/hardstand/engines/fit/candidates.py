"""Which pairs of pieces are looked at: those near enough to matter, and each item's neighbours."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.broad_phase import near_pairs
from hardstand.engines.fit.pairing import LIMIT_OF, RANK, rule_of
from hardstand.engines.fit.piece import Piece, Solids
from hardstand.engines.fit.stack import Bools, Index
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
    i, j = near_pairs([piece.body for piece in pieces], near)
    pairs = set(zip(i.tolist(), j.tolist(), strict=True))
    hot = [k for k, piece in enumerate(pieces) if piece.role == "hot" or _is_hot(piece)]
    for k in hot:
        apart = _apart(low, high, k)
        pairs.update(_ordered(k, np.flatnonzero(apart <= _low(limits, "hot-gap") + spare)))
    solid = np.array([piece.role in ("item", "keep_out", "tray") for piece in pieces], dtype=bool)
    for k, piece in enumerate(pieces):
        if piece.role == "item":
            pairs.update(_ordered(k, _nearest(pieces, k, _apart(low, high, k), solid)))
    return _ruled(pieces, sorted(pairs))


def _low(limits: Mapping[str, Limit], slug: str) -> float:
    return limits[LIMIT_OF[slug]].low or 0.0


def _is_hot(piece: Piece) -> bool:
    return piece.role == "keep_out" and piece.owner.kind == "hot"


def _apart(low: Floats, high: Floats, k: int) -> Floats:
    """Distance (P,) of every piece's box along the axes from that of piece k, from below."""
    gap = np.maximum(np.maximum(low - high[k], low[k] - high), 0.0)
    return np.asarray(np.sqrt(np.einsum("pi,pi->p", gap, gap)))


def _nearest(pieces: Sequence[Piece], k: int, apart: Floats, solid: Bools) -> Index:
    """The nearest pieces of other rows, each row once."""
    order = np.flatnonzero(solid)
    order = order[np.argsort(apart[order], kind="stable")]
    found: dict[str, int] = {}
    for other in order.tolist():
        name = pieces[other].subject
        if name not in found and rule_of(pieces[k], pieces[other]) is not None:
            found[name] = other
            if len(found) == _LOOKED_AT:
                break
    return np.array(list(found.values()), dtype=np.intp)


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
