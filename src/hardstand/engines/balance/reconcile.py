"""Build-up and measurements brought together by generalised least squares.

theta+ = theta + P H' S^-1 r with S = H P H' + R, the best linear unbiased estimate; r' S^-1 r is
chi-square with as many degrees of freedom as there are measurements if nothing is wrong.
Common practice, no source (the Gauss-Markov theorem with a prior).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.balance.build_up import BuildUp, Observations

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Reconciled:
    """What is believed of the items, and of the whole, after the measurements.

    Attributes: after, the items' masses, places and covariance; total_g, cg_mm (2,) and
    covariance_whole (3, 3) of mass, x and y in g and mm; chi_square of the innovation, its
    degrees_of_freedom, and chance, how often a chi-square as big comes from sound figures.
    """

    after: BuildUp
    total_g: float
    cg_mm: Floats
    covariance_whole: Floats
    chi_square: float
    degrees_of_freedom: int
    chance: float


def chi_square_chance(chi_square: float, degrees_of_freedom: int) -> float:
    """Return the chance of a chi-square at least as big; 1 without degrees of freedom.

    >>> round(chi_square_chance(7.815, 3), 4)
    0.05
    """
    half = 0.5 * max(chi_square, 0.0)
    if degrees_of_freedom == 0:
        return 1.0
    # Q(k + 2) = Q(k) + half^(k / 2) exp(-half) / Gamma(k / 2 + 1), from Q(2) or Q(1): closed forms
    start = 2 - degrees_of_freedom % 2
    chance = math.exp(-half) if start == 2 else math.erfc(math.sqrt(half))
    for k in range(start, degrees_of_freedom, 2):
        if half > 0.0:
            chance += math.exp(0.5 * k * math.log(half) - half - math.lgamma(0.5 * k + 1.0))
    return chance


def chi_square_limit(chance: float, degrees_of_freedom: int) -> float:
    """Return the chi-square that sound figures exceed with the stated chance.

    >>> round(chi_square_limit(0.01, 3), 3)
    11.345
    """
    from scipy.special import chdtri

    return float(chdtri(degrees_of_freedom, chance))


def innovation_covariance(prior: BuildUp, seen: Observations) -> Floats:
    """Return S = H P H' + R (K, K): how far measurement and build-up may differ."""
    return np.asarray(seen.matrix @ prior.covariance @ seen.matrix.T + seen.covariance)


def reconcile(prior: BuildUp, seen: Observations) -> Reconciled:
    """Update the items by what was measured.

    One linear step from the build-up: see `build_up` for how straight the problem is. Masses may
    come out a little below 0 where an item weighs less than its uncertainty.
    Parameters: prior of N items; K observations. Returns `Reconciled`.

    >>> from hardstand.engines.balance.build_up import build_up, observed_items
    >>> prior = build_up([100.0, 300.0], [[0, 0], [400, 0]], [3.0, 4.0], [2.0, 2.0])
    >>> found = reconcile(prior, observed_items(prior, [1], [310.0], [3.0]))
    >>> found.after.mass_g.round(6).tolist(), round(found.chi_square, 6)
    ([100.0, 306.4], 4.0)
    """
    spread = innovation_covariance(prior, seen)
    cross = prior.covariance @ seen.matrix.T
    gain = np.linalg.solve(spread, cross.T).T
    step = gain @ seen.residual
    # This form of the covariance stays symmetric and positive under rounding.
    kept = np.eye(step.size) - gain @ seen.matrix
    covariance = kept @ prior.covariance @ kept.T + gain @ seen.covariance @ gain.T
    count = prior.mass_g.size
    place = prior.at_mm + step[count:].reshape(2, count).T
    after = BuildUp(prior.mass_g + step[:count], place, covariance)
    chi_square = float(seen.residual @ np.linalg.solve(spread, seen.residual))
    total, cg = after.total_g, after.cg_mm
    slope = np.zeros((3, 3 * count))
    slope[0, :count] = 1.0
    slope[1:, :count] = (place - cg).T / total
    slope[1, count : 2 * count] = slope[2, 2 * count :] = after.mass_g / total
    degrees = seen.residual.size
    return Reconciled(
        after=after,
        total_g=total,
        cg_mm=cg,
        covariance_whole=slope @ covariance @ slope.T,
        chi_square=chi_square,
        degrees_of_freedom=degrees,
        chance=chi_square_chance(chi_square, degrees),
    )
