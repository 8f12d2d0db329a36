"""Which single slip best explains why build-up and measurement differ.

For a free slip the gain is (h' S^-1 r)^2 / (h' S^-1 h), what it takes off chi-square; the implied
size is h' S^-1 r / (h' S^-1 h). Slips are ranked by their odds against "nothing is wrong", each
size having its own spread (a ratio of marginal likelihoods), so that one that needs an absurd size
or more unknowns doesn't win by bending further. Common practice, no source (Gaussian algebra).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.balance.build_up import BuildUp, Observations
from hardstand.engines.balance.reconcile import chi_square_chance, innovation_covariance
from hardstand.engines.balance.slips import Slip

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Suspect:
    """One slip with what it would explain.

    Attributes: kind, item (index or -1), unit as in `Slip`; size, the implied error of the entry
    (true less entered) in that unit, u_size its standard uncertainty (0 where the slip fixes it);
    size_over_u, the size in the entry's own standard uncertainties; gain, taken off chi-square;
    chi_square_left and its chance; log_odds against nothing being wrong; share (0 to 1) among all
    slips tried if exactly one of them happened, each as likely beforehand.
    """

    kind: str
    item: int
    unit: str
    size: float
    u_size: float
    size_over_u: float
    gain: float
    chi_square_left: float
    chance_left: float
    log_odds: float
    share: float


Judged = tuple[float, float, float, float]


def _judged(slips: list[Slip], inverse: Floats, residual: Floats) -> list[Judged]:
    """Size, its standard uncertainty, gain and log odds of each slip; those of one unknown at once."""
    single = [k for k, slip in enumerate(slips) if slip.direction.shape[1] == 1]
    found: dict[int, Judged] = {}
    if single:
        direction = np.concatenate([slips[k].direction for k in single], axis=1)
        weighted = sum(row[:, None] * way for row, way in zip(direction, inverse, strict=True))
        fit = (weighted * residual).sum(axis=1)
        strength = (weighted * direction.T).sum(axis=1)
        for k, one, strong in zip(single, fit.tolist(), strength.tolist(), strict=True):
            found[k] = _of_one(slips[k], one, strong)
    return [found[k] if k in found else _judge(slip, inverse, residual) for k, slip in enumerate(slips)]


def _of_one(slip: Slip, fit: float, strength: float) -> Judged:
    """What `_judge` says of a slip whose only unknown, if any, is its size."""
    if slip.fixed is not None:
        gain = 2.0 * fit - strength
        return slip.fixed, 0.0, gain, 0.5 * gain
    if strength <= 0.0:
        return 0.0, math.inf, 0.0, 0.0
    best, spread = fit / strength, float(slip.spread[0])
    inner, scaled = 1.0 + spread * strength * spread, spread * fit
    log_odds = 0.5 * (scaled * scaled / inner - math.log(inner))
    return best, math.sqrt(1.0 / strength), fit * best, log_odds


def _judge(slip: Slip, inverse: Floats, residual: Floats) -> Judged:
    """Return size, its standard uncertainty, gain and log odds of one slip."""
    weighted = slip.direction.T @ inverse
    fit, strength = weighted @ residual, weighted @ slip.direction
    if slip.fixed is not None:
        gain = float(2.0 * fit[0] - strength[0, 0])
        return slip.fixed, 0.0, gain, 0.5 * gain
    if float(np.trace(strength)) <= 0.0:
        return 0.0, np.inf, 0.0, 0.0
    covariance = np.linalg.inv(strength)
    best = covariance @ fit
    # With the unknowns scaled by their spreads the matrices stay of order one.
    scale = np.diag(slip.spread)
    inner = np.eye(slip.spread.size) + scale @ strength @ scale
    scaled = scale @ fit
    log_odds = 0.5 * (scaled @ np.linalg.solve(inner, scaled) - np.linalg.slogdet(inner)[1])
    return float(best[0]), float(np.sqrt(covariance[0, 0])), float(fit @ best), float(log_odds)


def rank_suspects(
    prior: BuildUp, seen: Observations, slips: Iterable[Slip], first: int = 10
) -> list[Suspect]:
    """Rank slips by how well each alone explains the residual, and return the first few.

    Few numbers can't tell many slips apart: several of almost equal odds are the honest answer, and
    weighing one of those items decides. Parameters: prior, observations, slips from `slips`;
    first, how many to return. Returns a list of `Suspect`, best first.

    >>> from hardstand.engines.balance.build_up import build_up, observed_weigh_in
    >>> from hardstand.engines.balance.slips import fixed_slips, item_slips
    >>> places = [[0, 0], [400, 0], [900, 50]]
    >>> prior = build_up([1000.0, 3000.0, 168.0], places, [5.0, 9.0, 2.0], [2.0, 2.0, 2.0])
    >>> truth = build_up([1000.0, 3000.0, 186.0], places, [5.0, 9.0, 2.0], [2.0, 2.0, 2.0])
    >>> exact = np.diag([1.0, 0.01, 0.01])
    >>> seen = observed_weigh_in(prior, truth.total_g, *truth.cg_mm, exact)
    >>> found = rank_suspects(prior, seen, [*item_slips(prior, seen), *fixed_slips(prior, seen)])
    >>> found[0].kind, found[0].item, found[0].size
    ('two digits of the mass swapped', 2, 18.0)
    """
    inverse = np.asarray(np.linalg.inv(innovation_covariance(prior, seen)), dtype=np.float64)
    chi_square = float(seen.residual @ inverse @ seen.residual)
    tried = list(slips)
    judged = _judged(tried, inverse, seen.residual)
    odds = np.array([log_odds for *_, log_odds in judged])
    share = np.exp(odds - odds.max(initial=0.0))
    share /= share.sum()
    result = []
    for number in np.argsort(-odds, kind="stable")[:first]:
        slip, (size, u_size, gain, log_odds) = tried[number], judged[number]
        unknowns = 0 if slip.fixed is not None else slip.spread.size
        left = chi_square - gain
        result.append(
            Suspect(
                kind=slip.kind,
                item=slip.item,
                unit=slip.unit,
                size=size,
                u_size=u_size,
                size_over_u=float(size / slip.u) if slip.u > 0.0 else np.inf,
                gain=gain,
                chi_square_left=left,
                chance_left=chi_square_chance(left, max(seen.residual.size - unknowns, 0)),
                log_odds=log_odds,
                share=float(share[number]),
            )
        )
    return result


def residual_station_mm(
    computed_g: float, computed_cg_mm: float, measured_g: float, measured_cg_mm: float
) -> float:
    """Return where a mass would sit whose absence or excess explains both totals.

    x_r = (M_c x_c - M_m x_m) / (M_c - M_m), along x or y alike. Raises ValueError for equal masses.

    >>> round(residual_station_mm(13341.0, 249.7, 13241.0, 256.0), 1)
    -584.5
    """
    if computed_g == measured_g:
        raise ValueError("equal masses have no residual station: nothing is missing or too much")
    moment = computed_g * computed_cg_mm - measured_g * measured_cg_mm
    return moment / (computed_g - measured_g)
