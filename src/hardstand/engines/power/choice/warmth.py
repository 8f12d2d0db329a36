"""How warm a conductor becomes, by itself and among the other wires that it is tied to.

A bundle is one body with the heat of all its wires and the surface of a hand-tied round bundle, in
still air. Of the worked example of FAA AC 43.13-1B CHG 1, page 11-27 (wire No. 14, 8 wires at 60 %), it
allows 98 % of the current (tests/reference). Ends, plugs and the air of flight take heat away and are
left out.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hardstand.standards.wire_current import STILL_AIR_W_M2_K
from hardstand.standards.wire_resistance import TEMPERATURE_COEFFICIENT

Floats = NDArray[np.float64]
# Wires tied by hand, over the root of the sum of their squares: value from memory.
TIED = 1.2
MELTS_DEGC = 1085.0  # copper: nothing is reckoned to be warmer


def heat_w_per_m(current_a: Floats, mohm_per_m: Floats, loaded: float = 2.0) -> Floats:
    """Heat of a lead at 20 degrees C, W/m: `loaded` of its wires carry the current there and back.

    >>> heat_w_per_m(np.array([10.0]), np.array([20.0])).tolist()
    [4.0]

    Source: I2 R.
    """
    return np.asarray(loaded * current_a**2 * 1e-3 * mohm_per_m)


def conductor_degc(
    heat_w_m: Floats, squares_mm2: Floats, ambient_degc: float, air_w_m2_k: float = STILL_AIR_W_M2_K
) -> Floats:
    """Temperature of the copper of a bundle in still air, degrees C; at most that at which it melts.

    Assumptions and validity: as the module says; steady, level, the copper of all wires as warm as
    the bundle; good to some 20 % of the rise. Parameters, of any one shape: `heat_w_m` of all wires
    as at 20 degrees C; `squares_mm2`, sum of the squares of their outside diameters.

    >>> conductor_degc(np.array([0.0, 2.0]), np.array([9.0, 9.0]), 45.0).round(1).tolist()
    [45.0, 56.9]

    Source: Joule heat against a coefficient of heat transfer from memory; IEC 60028 for the copper.
    """
    surface_m = 1e-3 * np.pi * TIED * np.sqrt(squares_mm2)
    rise = heat_w_m / (air_w_m2_k * surface_m)  # K, if copper did not resist more when warm
    more = 1.0 - TEMPERATURE_COEFFICIENT * rise
    start = ambient_degc + rise * (1.0 - 20.0 * TEMPERATURE_COEFFICIENT)
    warm = np.where(more > 0.0, start / np.where(more > 0.0, more, 1.0), MELTS_DEGC)
    return np.asarray(np.minimum(warm, MELTS_DEGC))
