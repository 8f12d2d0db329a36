"""A station as a percentage of the mean aerodynamic chord, and back."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


def percent_of_chord(
    station_mm: ArrayLike, leading_edge_mm: ArrayLike, chord_mm: ArrayLike
) -> Floats:
    """Return where a station lies on a chord, per cent aft of its leading edge; arrays broadcast.

    Raises ValueError unless the chord is above 0.

    >>> percent_of_chord(1295.0, 1198.95, 408.42).round(2).item()
    23.52
    """
    chord = np.asarray(chord_mm, dtype=np.float64)
    if np.any(~(chord > 0.0)):
        raise ValueError("a chord must be above 0 mm")
    aft = np.asarray(station_mm, dtype=np.float64) - np.asarray(leading_edge_mm, dtype=np.float64)
    return np.asarray(100.0 * aft / chord, dtype=np.float64)


def station_of_percent(
    percent_pct: ArrayLike, leading_edge_mm: ArrayLike, chord_mm: ArrayLike
) -> Floats:
    """Return the station (mm) of a percentage of a chord; arrays broadcast.

    >>> station_of_percent(34.3, 1198.95, 408.42).round(1).item()
    1339.0
    """
    share = np.asarray(percent_pct, dtype=np.float64) / 100.0
    result = np.asarray(leading_edge_mm, dtype=np.float64) + share * np.asarray(chord_mm)
    return np.asarray(result, dtype=np.float64)
