"""The CG after adding, removing, moving or swapping a mass, and what it takes to reach a CG.

Every argument may be an array and all of them broadcast together; a CG and the stations with it are
along one axis. All formulas are exact moment balances (no small-change approximation).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Balance:
    """A mass and its CG along one axis, of any common shape: mass_g, cg_mm."""

    mass_g: Floats
    cg_mm: Floats


def _arrays(*values: ArrayLike) -> list[Floats]:
    """Return all values broadcast to one shape."""
    return list(np.broadcast_arrays(*[np.asarray(value, dtype=np.float64) for value in values]))


def after_swapping(
    mass_g: ArrayLike,
    cg_mm: ArrayLike,
    out_g: ArrayLike,
    out_at_mm: ArrayLike,
    in_g: ArrayLike,
    in_at_mm: ArrayLike,
) -> Balance:
    """Return mass and CG when `out_g` is taken from `out_at_mm` and `in_g` put at `in_at_mm`.

    Raises ValueError when nothing would be left.

    >>> after_swapping(10000.0, 250.0, 268.0, -700.0, 172.0, -640.0).cg_mm.round(3).item()
    260.25
    """
    mass, cg, out, out_at, new, new_at = _arrays(mass_g, cg_mm, out_g, out_at_mm, in_g, in_at_mm)
    total = mass - out + new
    if np.any(~(total > 0.0)):
        raise ValueError("the change leaves no mass, so there is no CG")
    return Balance(total, (mass * cg - out * out_at + new * new_at) / total)


def after_adding(
    mass_g: ArrayLike, cg_mm: ArrayLike, added_g: ArrayLike, at_mm: ArrayLike
) -> Balance:
    """Return mass and CG when `added_g` is put at `at_mm`.

    >>> after_adding(6860.0, 80.0, 140.0, 150.0).cg_mm.item()
    81.4
    """
    return after_swapping(mass_g, cg_mm, 0.0, 0.0, added_g, at_mm)


def after_removing(
    mass_g: ArrayLike, cg_mm: ArrayLike, removed_g: ArrayLike, at_mm: ArrayLike
) -> Balance:
    """Return mass and CG when `removed_g` is taken from `at_mm`; ValueError if nothing is left.

    >>> after_removing(6100.0, 80.0, 100.0, 150.0).cg_mm.round(2).item()
    78.83
    """
    return after_swapping(mass_g, cg_mm, removed_g, at_mm, 0.0, 0.0)


def after_moving(
    mass_g: ArrayLike,
    cg_mm: ArrayLike,
    moved_g: ArrayLike,
    from_mm: ArrayLike,
    to_mm: ArrayLike,
) -> Balance:
    """Return mass and CG when `moved_g` goes from one station to another.

    >>> after_moving(13000.0, 250.0, 344.0, 330.0, 398.0).cg_mm.round(2).item()
    251.8
    """
    return after_swapping(mass_g, cg_mm, moved_g, from_mm, moved_g, to_mm)


def _ratio(numerator: Floats, denominator: Floats, otherwise: float) -> Floats:
    """Divide; where the denominator is 0 give 0 for 0 and `otherwise` for the rest."""
    bad = np.where(numerator == 0.0, 0.0, otherwise)
    # A denominator next to nothing gives an infinity, which is what is meant.
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        ratio = numerator / denominator
    return np.asarray(np.where(denominator == 0.0, bad, ratio), dtype=np.float64)


def ballast_to_reach_g(
    mass_g: ArrayLike, cg_mm: ArrayLike, target_mm: ArrayLike, at_mm: ArrayLike
) -> Floats:
    """Return the ballast at `at_mm` that brings the CG to the target: M (t - cg) / (s - t).

    0 where the CG is there already; infinity where no ballast at that station can do it.

    >>> ballast_to_reach_g(13000.0, 240.0, 250.0, [1195.0, -500.0]).round(1).tolist()
    [137.6, inf]
    """
    mass, cg, target, at = _arrays(mass_g, cg_mm, target_mm, at_mm)
    ballast = _ratio(mass * (target - cg), at - target, np.inf)
    return np.where(ballast < 0.0, np.inf, ballast)


def mass_to_move_g(
    mass_g: ArrayLike,
    cg_mm: ArrayLike,
    target_mm: ArrayLike,
    from_mm: ArrayLike,
    to_mm: ArrayLike,
) -> Floats:
    """Return how much to move between two stations to reach the target; infinity if it can't.

    >>> mass_to_move_g(7800.0, 81.5, 80.5, 150.0, 30.0).item()
    65.0
    """
    mass, cg, target, start, end = _arrays(mass_g, cg_mm, target_mm, from_mm, to_mm)
    moved = _ratio(mass * (target - cg), end - start, np.inf)
    return np.where(moved < 0.0, np.inf, moved)


def distance_to_move_mm(
    mass_g: ArrayLike, cg_mm: ArrayLike, target_mm: ArrayLike, moved_g: ArrayLike
) -> Floats:
    """Return how far `moved_g` must go (aft positive) for the CG to reach the target.

    >>> distance_to_move_mm(13341.0, 249.7, 250.0, 344.0).round(1).item()
    11.6
    """
    mass, cg, target, moved = _arrays(mass_g, cg_mm, target_mm, moved_g)
    return _ratio(mass * (target - cg), moved, np.inf)
