"""Wire by gauge: the diameter of the conductor, and of the wire with its insulation."""

from __future__ import annotations

from hardstand.standards.tolerances import ClassDefault

# Half-width of 95 % of an outside diameter that is only known by its gauge: insulations differ.
OUTSIDE = ClassDefault("outside of a wire by its gauge, 15 %", "mm", 0.0, 0.15)
_STRANDED = 1.13  # a bunch of strands is this much thicker than the solid wire of the same area
_WALL_MM, _WALL_SHARE = 0.3, 0.25  # of the insulation: thin, and growing with the conductor


def conductor_diameter_mm(awg: int) -> float:
    """Diameter of the solid round wire of an American wire gauge, in mm.

    Assumptions and validity: nominal diameter of solid wire; 39 equal ratios lie between No. 36
    (0.0050 in) and No. 0000 (0.4600 in). `awg` is the gauge number, 4 to 40 here.

    >>> conductor_diameter_mm(36), round(conductor_diameter_mm(24), 4)
    (0.127, 0.5106)

    Source: ASTM B258, Standard Specification for Standard Nominal Diameters and Cross-Sectional
    Areas of AWG Sizes of Solid Round Wires.
    """
    return float(0.127 * 92.0 ** ((36 - awg) / 39.0))


def outside_diameter_mm(awg: int) -> float:
    """Diameter of a flexible stranded wire with its insulation, in mm.

    Assumptions and validity: fine strands, soft insulation as model leads have; gauge 12 to 28. Other
    insulations differ by some 15 % (`OUTSIDE`). `awg` is the gauge number.

    >>> round(outside_diameter_mm(22), 2), round(outside_diameter_mm(14), 2)
    (1.65, 3.25)

    Source: fitted to usual leads (1.7 mm for gauge 22, 3.3 mm for gauge 14): values from memory.
    """
    conductor = conductor_diameter_mm(awg)
    return _STRANDED * conductor + 2.0 * (_WALL_MM + _WALL_SHARE * conductor)
