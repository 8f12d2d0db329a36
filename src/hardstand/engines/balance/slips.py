"""The slips that put one wrong figure into a build-up or a weigh-in, as directions of the residual.

Each slip says how the residual (measured less build-up) would move. A free slip has an unknown size
and moves it by that many units of `direction`; a fixed slip (counted twice, ounces for grams, two
digits swapped) moves it by `direction` itself and explains nothing else.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.balance.build_up import BuildUp, Observations

Floats = NDArray[np.float64]
GRAMS_PER_OUNCE = 28.349523125  # international avoirdupois ounce, exact
BLUNDER_U = 10.0
BLUNDER_SHARE = 0.3
BLUNDER_MM = 100.0


@dataclass(frozen=True, eq=False)
class Slip:
    """One thing that may be wrong.

    Attributes: kind, in words; item, its index, or -1; unit of the size, "g", "mm" or "deg";
    direction (K, Q) of the residual per unit, Q unknowns (one but for a missing item); u, what the
    size would be by ordinary error (standard uncertainty of the entry), so that a size of many u
    is a blunder; fixed, the size where the slip itself states it, else None; spread (Q,), standard
    deviation that the unknowns have if the slip did happen.
    """

    kind: str
    item: int
    unit: str
    direction: Floats
    u: float
    fixed: float | None
    spread: Floats


def item_slips(prior: BuildUp, seen: Observations) -> Iterator[Slip]:
    """Yield a wrong mass, a wrong x and a wrong y for every item, of unknown size.

    A blunder in a mass is typically 30 % of it (another part, an old figure), in a place 100 mm (a
    digit, another datum), and ten ordinary uncertainties where that is more (common practice, no
    source). These spreads rank the slips; they don't change the size that is found.
    """
    count = prior.mass_g.size
    u = prior.u
    blunder = np.concatenate([BLUNDER_SHARE * np.abs(prior.mass_g), np.full(2 * count, BLUNDER_MM)])
    spread = np.maximum(blunder, BLUNDER_U * u)
    kinds = (("mass", "g"), ("place along x", "mm"), ("place along y", "mm"))
    for number, (kind, unit) in enumerate(kinds):
        for item in range(count):
            column = number * count + item
            direction = seen.matrix[:, column : column + 1]
            yield Slip(kind, item, unit, direction, u[column], None, spread[column : column + 1])


def swapped_digits(mass_g: float) -> list[float]:
    """Return the masses that become `mass_g` when two neighbouring digits change places.

    The difference is always a multiple of 9.

    >>> swapped_digits(186.0)
    [816.0, 168.0]
    """
    text = str(round(mass_g))
    pairs = (text[:k] + text[k + 1] + text[k] + text[k + 2 :] for k in range(len(text) - 1))
    return [float(pair) for pair in pairs if pair != text]


def fixed_slips(prior: BuildUp, seen: Observations) -> Iterator[Slip]:
    """Yield, for every item, the slips whose size follows from its entry."""
    count, u = prior.mass_g.size, prior.u
    for item, (mass, (_, y_mm)) in enumerate(zip(prior.mass_g, prior.at_mm, strict=True)):
        sizes = [
            ("counted twice", -mass),
            ("ounces entered as grams", mass * (GRAMS_PER_OUNCE - 1.0)),
            ("grams entered as ounces", mass * (1.0 / GRAMS_PER_OUNCE - 1.0)),
            *(("two digits of the mass swapped", other - mass) for other in swapped_digits(mass)),
        ]
        columns = [(kind, "g", size, item) for kind, size in sizes]
        if abs(y_mm) > 1.0:
            columns.append(("place on the other side", "mm", -2.0 * y_mm, 2 * count + item))
        for kind, unit, size, column in columns:
            direction = seen.matrix[:, column : column + 1] * size
            yield Slip(kind, item, unit, direction, u[column], float(size), np.zeros(1))


def offset_slip(seen: Observations, items: Sequence[int], u_offset_g: float) -> Slip:
    """Return a tare error shared by the weighings of `items`: its size is added to every mass."""
    direction = seen.matrix[:, list(items)].sum(axis=1, keepdims=True)
    spread = np.array([BLUNDER_U * u_offset_g])
    return Slip("scale offset", -1, "g", direction, u_offset_g, None, spread)


def measuring_slip(kind: str, unit: str, direction: Floats, u: float) -> Slip:
    """Return an error of the measurement itself: level, a wheel's station, one scale.

    Parameters: direction (K,), what one unit of it adds to the measured values; u, its standard
    uncertainty.
    """
    return Slip(kind, -1, unit, direction[:, None], u, None, np.array([BLUNDER_U * u]))


def missing_item_slip(prior: BuildUp, seen: Observations) -> Slip:
    """Return a forgotten item of unknown mass and place, for a weigh-in as the first rows.

    Its size is its mass. It is taken to weigh what the listed items weigh in the mean, and to lie
    as far from the CG as they do (root mean square, by mass).
    """
    rows = min(3, seen.residual.size)
    mass = float(prior.mass_g.mean())
    offset = prior.at_mm - prior.cg_mm
    reach = np.sqrt(prior.mass_g @ offset**2 / prior.total_g)
    direction = np.eye(seen.residual.size)[:, :rows]
    spread = (mass * np.array([1.0, *reach]))[:rows]
    return Slip("missing item", -1, "g", direction, np.inf, None, spread)
