"""What a wire may carry: in a full bundle by the aircraft table, and by itself by its warming."""

from __future__ import annotations

import math

# FAA AC 43.13-1B CHG 1, table 11-9, page 11-23: gauge: (105 degrees C wire, 200 degrees C wire), A.
# Bundle of 33 wires or more (9 or more from No. 8 on), 70 degrees C around it, at most 20 % of the
# harness loaded, 60 000 ft: very cautious for a few loaded wires in the open. Seen.
BUNDLE_A = {
    24: (2.5, 5.0), 22: (3.0, 6.0), 20: (4.0, 9.0), 18: (6.0, 12.0), 16: (7.0, 14.0),
    14: (10.0, 18.0), 12: (13.0, 25.0), 10: (17.0, 32.0), 8: (38.0, 71.0),
}
BUNDLE_RATED_DEGC = (105.0, 200.0)
BUNDLE_AMBIENT_DEGC = 70.0
# Still air takes up so much from a thin wire, convection and radiation; 15 to 25, from memory.
STILL_AIR_W_M2_K = 17.0


def bundle_current_a(awg: int, rated_degc: float) -> float:
    """Current in A that a wire in a full bundle may carry all the time.

    Assumptions and validity: as the table above; even gauges 8 to 24; a wire rated between 105 and
    200 degrees C counts by the root of its rise, one rated lower likewise, one rated higher as 200.

    Raises KeyError for a gauge that is not in the table, ValueError for a rating of 70 degrees C or
    less, at which nothing is left to warm.

    >>> bundle_current_a(20, 105.0), bundle_current_a(20, 200.0)
    (4.0, 9.0)

    Source: FAA AC 43.13-1B CHG 1, table 11-9; heat goes with the square of the current.
    """
    if rated_degc <= BUNDLE_AMBIENT_DEGC:
        raise ValueError(f"a wire rated {rated_degc:g} °C can carry nothing in 70 °C")
    low, high = BUNDLE_A[awg]
    low_degc, high_degc = BUNDLE_RATED_DEGC
    if rated_degc <= low_degc:
        rise = (rated_degc - BUNDLE_AMBIENT_DEGC) / (low_degc - BUNDLE_AMBIENT_DEGC)
        return low * math.sqrt(rise)
    share = min(1.0, (rated_degc - low_degc) / (high_degc - low_degc))
    return math.sqrt(low**2 + share * (high**2 - low**2))


def free_air_current_a(mohm_per_m: float, outside_mm: float, rise_degc: float) -> float:
    """Current in A that warms one wire by itself in still air by `rise_degc`.

    Assumptions and validity: long wire, level, nothing near it; 0.1 to 10 mm2, rises up to 100 K;
    good to some 20 %. Parameters: `mohm_per_m` of the warm conductor; `outside_mm`, its diameter.

    >>> round(free_air_current_a(20.9, 2.3, 40.0), 1)
    15.3

    Source: balance of Joule heat and a coefficient of heat transfer from memory.
    """
    watts_per_m = STILL_AIR_W_M2_K * math.pi * 1e-3 * outside_mm * rise_degc
    return math.sqrt(watts_per_m / (1e-3 * mohm_per_m))
