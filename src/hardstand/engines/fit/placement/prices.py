"""What each wish is worth, in millimetres of thin lead: the one scale on which layouts are compared.

All of them are choices (common practice, no source): a gram of ballast in the tail weighs as much as
some 30 mm of thin lead and costs more care, so a millimetre of CG, about 13 g of ballast on 13 kg, is
worth 300 mm.
"""

from __future__ import annotations

POINTS = 100  # points of the solver for half a millimetre of thin lead
# By kind of lead: thin for signals; power and motors; high current; tubes and aerials.
LEAD_WEIGHTS = {"signal": 1, "power": 2, "high-current": 3, "aerial": 3}
HEAVY_AWG, POWER_AWG = 16, 22
CG_X, CG_Y = 300.0, 100.0  # per mm off its target, along and across
GYRO_OFF, GYRO_FROM_CG = 2.0, 1.0  # per mm off the centreline; from the CG where it has accelerometers
ACCESS = 0.5  # per mm from the opening it is reached through
APART = 5.0  # per mm that two receivers are nearer than their aerials should be


def points(mm: float) -> int:
    """A price per millimetre as points of the solver per half millimetre, at least one.

    >>> points(2.0), points(0.0001)
    (200, 1)
    """
    return max(1, round(POINTS * mm))


def lead_mm(cost: int) -> float:
    """Points of the solver as millimetres of thin lead.

    >>> lead_mm(200)
    1.0
    """
    return cost / (2.0 * POINTS)
