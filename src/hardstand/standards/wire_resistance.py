"""Resistance of copper wire by area or gauge, solid or stranded, at any temperature."""

from __future__ import annotations

import math

from hardstand.standards.wire import conductor_diameter_mm

# IEC 60028:1925, International standard of resistance for copper; values seen.
RESISTIVITY = 1.0 / 58.0  # ohm mm2 per m at 20 degrees C
TEMPERATURE_COEFFICIENT = 0.00393  # per K, at 20 degrees C
COPPER_KG_M3 = 8890.0
# Strands run a longer way round than the lead they make: 2 to 4 %. Value from memory.
SOLID, STRANDED = 1.0, 1.03
# FAA AC 43.13-1B CHG 1, table 11-9, page 11-23: tinned stranded aircraft wire at most; seen.
MOST_OHM_PER_1000_FT = {
    24: 28.4, 22: 16.2, 20: 9.88, 18: 6.23, 16: 4.81, 14: 3.06, 12: 2.02, 10: 1.26, 8: 0.70,
}
M_PER_1000_FT = 304.8


def conductor_area_mm2(awg: int) -> float:
    """Cross-section of the solid round wire of an American wire gauge, in mm2.

    >>> round(conductor_area_mm2(14), 3), round(conductor_area_mm2(22), 4)
    (2.081, 0.3255)

    Source: ASTM B258, as `conductor_diameter_mm`.
    """
    return 0.25 * math.pi * conductor_diameter_mm(awg) ** 2


def temperature_ratio(temperature_degc: float) -> float:
    """Resistance of copper at a temperature over that at 20 degrees C.

    Assumptions and validity: straight line, -50 to 150 degrees C.

    >>> temperature_ratio(60.0)
    1.1572

    Source: IEC 60028, coefficient at 20 degrees C and constant mass; seen.
    """
    return 1.0 + TEMPERATURE_COEFFICIENT * (temperature_degc - 20.0)


def mohm_per_m(area_mm2: float, temperature_degc: float = 20.0, lay: float = SOLID) -> float:
    """Resistance in milliohms of one metre of one copper conductor.

    Assumptions and validity: annealed copper; direct current. Parameters: `area_mm2` of metal;
    `temperature_degc` of the wire; `lay`, the way of a strand over the length of the wire (`SOLID`,
    `STRANDED`).

    Raises ValueError where the area is not above 0.

    >>> round(mohm_per_m(0.5176), 2), round(mohm_per_m(0.5, lay=STRANDED), 1)
    (33.31, 35.5)

    Source: IEC 60028; the lay is a value from memory.
    """
    if not area_mm2 > 0.0:
        raise ValueError(f"the area of a wire must be above 0 mm2, and is {area_mm2:g}")
    return 1e3 * RESISTIVITY / area_mm2 * lay * temperature_ratio(temperature_degc)


def gauge_mohm_per_m(awg: int, temperature_degc: float = 20.0, lay: float = SOLID) -> float:
    """Resistance in milliohms of one metre of wire of an American wire gauge.

    >>> [round(gauge_mohm_per_m(awg), 1) for awg in (14, 18, 22, 26)]
    [8.3, 20.9, 53.0, 133.9]

    Source: ASTM B258 and IEC 60028.
    """
    return mohm_per_m(conductor_area_mm2(awg), temperature_degc, lay)


def most_mohm_per_m(awg: int) -> float:
    """Highest resistance in milliohms that a metre of tinned stranded aircraft wire may have.

    Assumptions and validity: even gauges 8 to 24, at 20 degrees C. Raises KeyError for others.

    >>> round(most_mohm_per_m(22), 2)
    53.15

    Source: FAA AC 43.13-1B CHG 1, table 11-9, page 11-23; seen.
    """
    return 1e3 * MOST_OHM_PER_1000_FT[awg] / M_PER_1000_FT


def loop_mohm(length_mm: float, one_mohm_per_m: float) -> float:
    """Resistance in milliohms of a lead there and back: plus and minus wire of the same length.

    >>> round(loop_mohm(350.0, gauge_mohm_per_m(14)), 1)
    5.8

    Source: two conductors in series.
    """
    return 2e-3 * length_mm * one_mohm_per_m
