"""Where packs may stand, which are at hand, where ballast may go; all ways of placing the packs."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Indices = NDArray[np.int64]
WAYS_LIMIT = 200_000


@dataclass(frozen=True, eq=False)
class PackPlaces:
    """P places for packs and K kinds of pack at hand.

    Attributes: pack_g (K,); stock (K,), how many of each; low_mm, high_mm (P, K), the stations
    between which the middle of mass of pack k can slide at place p, nan where it doesn't fit or may
    not be used; alike, groups of places that must take the same kind (packs in parallel); worth
    (K,), what makes one pack better than another whatever it weighs (its charge), or none.
    """

    pack_g: Floats
    stock: Indices
    low_mm: Floats
    high_mm: Floats
    alike: tuple[tuple[int, ...], ...] = ()
    worth: Floats | None = None


@dataclass(frozen=True, eq=False)
class BallastPlaces:
    """B places for ballast: at_mm (B,), most_g (B,), what each can take."""

    at_mm: Floats
    most_g: Floats


def combinations(places: PackPlaces, limit: int = WAYS_LIMIT) -> Indices:
    """Return every allowed way of choosing one pack for each place (C, P).

    Raises ValueError above `limit` ways before stock is looked at, when no way is left, and for a
    place whose stations are the wrong way round.

    >>> where = np.array([[300.0, 310.0], [300.0, np.nan]])
    >>> places = PackPlaces(np.array([172.0, 268.0]), np.array([2, 1]), where, where + 50)
    >>> combinations(places).tolist()
    [[0, 0], [1, 0]]
    """
    if np.any(places.low_mm > places.high_mm):
        raise ValueError("a place's lower station must not lie behind its higher one")
    fits = [np.flatnonzero(row) for row in np.isfinite(places.low_mm) & np.isfinite(places.high_mm)]
    ways = int(np.prod([float(row.size) for row in fits]))
    if ways > limit:
        raise ValueError(f"{ways} ways of placing the packs are more than the limit of {limit}")
    grid = np.meshgrid(*fits, indexing="ij")
    chosen = np.stack([axis.ravel() for axis in grid], axis=1).astype(np.int64)
    for group in places.alike:
        chosen = chosen[np.all(chosen[:, list(group)] == chosen[:, [group[0]]], axis=1)]
    used = np.sum(chosen[:, :, None] == np.arange(places.pack_g.size), axis=1)
    chosen = chosen[np.all(used <= places.stock, axis=1)]
    if not len(chosen):
        raise ValueError("no combination of the packs at hand fills all places")
    return chosen
