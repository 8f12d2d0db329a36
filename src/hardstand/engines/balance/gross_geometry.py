"""Plain ratios of an aeroplane's shape: aspect ratio, taper, tail volume."""

from __future__ import annotations


def aspect_ratio(span_mm: float, area_mm2: float) -> float:
    """Return span squared over area, no unit. Source: definition.

    >>> aspect_ratio(2000.0, 800e3)
    5.0
    """
    return span_mm**2 / area_mm2


def taper_ratio(root_chord_mm: float, tip_chord_mm: float) -> float:
    """Return tip chord over root chord, no unit. Source: definition.

    >>> taper_ratio(400.0, 200.0)
    0.5
    """
    return tip_chord_mm / root_chord_mm


def tail_volume(
    tail_area_mm2: float, tail_arm_mm: float, wing_area_mm2: float, mac_mm: float
) -> float:
    """Return the tail volume ratio V = St lt/(S c), no unit.

    `tail_arm_mm` is from the aerodynamic centre of the wing (or from the CG, where a source says
    so) to that of the tail.

    Example: J. D. Anderson, Introduction to Flight, example 7.4 (0.02 m2 at 0.17 m on 0.1 m2 and a
    chord of 0.1 m).

    >>> round(tail_volume(20e3, 170.0, 100e3, 100.0), 2)
    0.34

    Source: J. D. Anderson, Introduction to Flight, section 7.6 (inputs seen, formula from memory).
    """
    return tail_area_mm2 * tail_arm_mm / (wing_area_mm2 * mac_mm)


def neutral_point_fraction(
    wing_body_centre: float,
    tail_volume_ratio: float,
    slope_ratio: float,
    downwash_slope: float,
    efficiency: float = 1.0,
) -> float:
    """Return the handbook neutral point as a fraction of the mean aerodynamic chord.

    h_n = h_ac + efficiency V (at/a)(1 - d eps/d alpha). A check on the lattice, which has the
    interference in it; not used for results.

    Parameters, all without unit: `wing_body_centre` h_ac; `tail_volume_ratio` V; `slope_ratio` lift
    slope of the tail over that of wing and body; `downwash_slope` d eps/d alpha.

    Example: J. D. Anderson, Introduction to Flight, example 7.6.

    >>> round(neutral_point_fraction(0.24, 0.34, 0.1 / 0.08, 0.35), 3)
    0.516

    Source: J. D. Anderson, Introduction to Flight, section 7.9 (from memory).
    """
    return wing_body_centre + efficiency * tail_volume_ratio * slope_ratio * (1.0 - downwash_slope)


def neutral_point_from_slopes(cg: float, moment_slope: float, lift_slope: float) -> float:
    """Return the neutral point fraction from the whole aeroplane's slopes about its CG.

    h_n = h - Cm_alpha/CL_alpha; both slopes per the same unit of angle.

    Example: R. C. Nelson, Flight Stability and Automatic Control, appendix B.

    >>> round(neutral_point_from_slopes(0.295, -0.683, 4.44), 3)
    0.449

    Source: definition.
    """
    return cg - moment_slope / lift_slope
