"""The grid of whole millimetres on which the middles of items stand.

Modelled boxes have odd sides, so that a middle on a whole millimetre puts corners on half ones; the
solver's plan is therefore shifted by half a millimetre and has its corners on whole numbers.
"""

from __future__ import annotations

import math

SHIFT_MM = 0.5
_SLACK = 1e-9


def odd_mm(least_mm: float) -> int:
    """The smallest odd whole number not below a length.

    >>> odd_mm(35.0), odd_mm(35.2), odd_mm(36.0)
    (35, 37, 37)
    """
    whole = math.ceil(least_mm - _SLACK)
    return whole if whole % 2 else whole + 1


def corner(middle_mm: float, side_mm: int) -> int:
    """The grid's corner of a side of odd length with its middle nearest to a coordinate.

    >>> corner(10.0, 5), middle(8, 5)
    (8, 10)
    """
    return round(middle_mm) - (side_mm - 1) // 2


def middle(corner_mm: int, side_mm: int) -> int:
    """The middle, a whole millimetre of the aeroplane's, of a side from its corner on the grid."""
    return corner_mm + (side_mm - 1) // 2


def span(low_mm: float, high_mm: float) -> tuple[int, int]:
    """A range of middles in the aeroplane's millimetres as the solver's range of middles.

    >>> span(270.0, 404.0), span(71.6, 72.4)
    ((270, 405), (72, 73))
    """
    return math.ceil(low_mm - _SLACK), math.floor(high_mm + _SLACK) + 1
