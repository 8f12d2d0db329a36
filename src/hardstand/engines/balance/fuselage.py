"""The moment with which a slender body tries to pitch away from the stream."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


def spheroid_inertia(fineness: float) -> tuple[float, float]:
    """Return Lamb's inertia factors k1 (along) and k2 (across) of a long spheroid.

    The mass of air that a body of revolution carries along, over the mass of air it displaces, in
    potential flow. With e^2 = 1 - 1/f^2 and l = ln((1 + e)/(1 - e)):
    a = 2(1 - e^2)/e^3 (l/2 - e), b = 1/e^2 - (1 - e^2) l/(2 e^3), k1 = a/(2 - a), k2 = b/(2 - b).

    Parameters: `fineness`, length over greatest diameter, from 1 (sphere).

    Returns (k1, k2), no unit. Raises `ValueError` below 1.

    Source: H. Lamb, Hydrodynamics, article 114; tabulated in M. M. Munk, The Aerodynamic Forces on
    Airship Hulls, NACA Report 184 (1924) (both from memory; the table is compared in the tests).

    >>> k1, k2 = spheroid_inertia(2.0)
    >>> round(k1, 2), round(k2, 2)
    (0.21, 0.7)
    """
    if not fineness >= 1.0:
        raise ValueError(f"fineness must be 1 or more, not {fineness}")
    if fineness < 1.001:
        return 0.5, 0.5  # the closed form loses its digits here; the sphere has exactly one half
    squared = 1.0 - 1.0 / fineness**2
    eccentricity = math.sqrt(squared)
    logarithm = math.log((1.0 + eccentricity) / (1.0 - eccentricity))
    along = 2.0 * (1.0 - squared) / eccentricity**3 * (0.5 * logarithm - eccentricity)
    across = 1.0 / squared - (1.0 - squared) / (2.0 * eccentricity**3) * logarithm
    return along / (2.0 - along), across / (2.0 - across)


def check_body(station_mm: ArrayLike, width_mm: ArrayLike) -> tuple[Array, Array]:
    """Return stations and widths as arrays (n), mm, if a body can have them.

    Raises `ValueError` for stations that do not rise, lengths that differ, negative or no widths.

    >>> check_body([0, 100], [0, 50])[1].tolist()
    [0.0, 50.0]
    """
    station = np.asarray(station_mm, dtype=float)
    width = np.asarray(width_mm, dtype=float)
    if station.size < 2 or not np.all(np.diff(station) > 0.0):
        raise ValueError("body stations must rise from nose to tail, two at least")
    if width.shape != station.shape:
        raise ValueError("every body station needs one width")
    if not np.all(width >= 0.0) or not np.any(width > 0.0):
        raise ValueError("body widths must not be negative, nor all zero")
    return station, width


def body_moment_mm3(
    station_mm: ArrayLike,
    width_mm: ArrayLike,
    flow_slope: ArrayLike = 1.0,
    inertia_factor: float | None = None,
) -> float:
    """Return the nose-up moment slope of a body over dynamic pressure, mm3 per radian.

    Each slice of air crossed by the body takes up momentum as if it were a plate as wide as the
    body (Munk); with the local flow angle per angle of attack, f(x), this is Multhopp's integral:

        M = 2 (k2 - k1) int (pi/4) w(x)^2 f(x) dx.

    f = 1 everywhere gives the body alone; `body_flow.flow_along_body` gives it between the
    wing's upwash and downwash. The height of an elliptic section does not enter.

    Validity: slender closed body in attached flow at small angles, sections near elliptic. A
    rounded box of the same width carries up to half as much again; the intake's turning of the
    air and an open nozzle are not covered. The uncertainty must hold all that.

    Parameters: `station_mm` (n) rising; `width_mm` (n) full width there; `flow_slope` (n) or one
    number; `inertia_factor` k2 - k1, by default that of the spheroid as long and wide.

    Returns the moment slope, mm3 (divide by reference area and chord for the coefficient).

    Raises `ValueError` as `check_body`.

    Example: a very slender ellipsoid has twice its volume, less the factor.

    >>> x = np.linspace(0.0, 2000.0, 2001)
    >>> width = 200.0 * np.sqrt(1.0 - (x / 1000.0 - 1.0) ** 2)
    >>> volume = math.pi / 6.0 * 2000.0 * 200.0**2
    >>> round(body_moment_mm3(x, width, inertia_factor=1.0) / volume, 3)
    2.0

    Source: M. M. Munk, NACA Report 184 (1924); H. Multhopp, Aerodynamics of the Fuselage, NACA
    Technical Memorandum 1036 (1942) (both from memory).
    """
    station, width = check_body(station_mm, width_mm)
    if inertia_factor is None:
        length = float(station[-1] - station[0])
        along, across = spheroid_inertia(max(1.0, length / float(width.max())))
        inertia_factor = across - along
    slices = np.pi / 4.0 * width**2 * np.asarray(flow_slope, dtype=float)
    return 2.0 * inertia_factor * float(np.trapezoid(slices, station))
