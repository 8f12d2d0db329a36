"""Insulation by class: how thick and heavy it makes a wire, and how warm it may become."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hardstand.standards.wire_resistance import COPPER_KG_M3

STRANDED_DIAMETER = 1.13  # of a bunch of strands over a solid wire of the same area; from memory


@dataclass(frozen=True, slots=True)
class Insulation:
    """A class of insulation: wall = `wall_mm` + `wall_share` times the conductor's diameter.

    `density_kg_m3` of the wall; `rated_degc`, the highest temperature of the wire. Values from
    memory: makers differ by some 15 %.
    """

    name: str
    wall_mm: float
    wall_share: float
    density_kg_m3: float
    rated_degc: float


PVC = Insulation("PVC", 0.3, 0.10, 1400.0, 80.0)
SILICONE = Insulation("silicone", 0.3, 0.25, 1250.0, 180.0)
THIN_WALL = Insulation("thin-wall fluoropolymer", 0.15, 0.05, 1700.0, 150.0)
INSULATIONS = {one.name: one for one in (PVC, SILICONE, THIN_WALL)}


def strands_diameter_mm(area_mm2: float) -> float:
    """Diameter in mm of a bunch of strands with this area of metal.

    >>> round(strands_diameter_mm(2.08), 2)
    1.84

    Source: value from memory.
    """
    return STRANDED_DIAMETER * math.sqrt(4.0 * area_mm2 / math.pi)


def insulated_diameter_mm(area_mm2: float, insulation: Insulation = SILICONE) -> float:
    """Outside diameter in mm of a stranded wire with its insulation.

    Assumptions and validity: fine strands, 0.05 to 10 mm2. Silicone is the class of
    `wire.outside_diameter_mm`, which goes by gauge.

    >>> round(insulated_diameter_mm(2.08), 2), round(insulated_diameter_mm(2.08, THIN_WALL), 2)
    (3.25, 2.3)

    Source: values from memory.
    """
    solid_mm = math.sqrt(4.0 * area_mm2 / math.pi)
    wall_mm = insulation.wall_mm + insulation.wall_share * solid_mm
    return strands_diameter_mm(area_mm2) + 2.0 * wall_mm


def wire_g_per_m(area_mm2: float, insulation: Insulation = SILICONE) -> float:
    """Mass in grams of one metre of one stranded wire with its insulation.

    Assumptions and validity: as `insulated_diameter_mm`; copper with 3 % of lay. No plugs.

    >>> round(wire_g_per_m(0.5), 1), round(wire_g_per_m(2.08), 1)
    (7.3, 26.1)

    Source: density of copper IEC 60028; the rest from memory.
    """
    copper = 1.03 * area_mm2 * COPPER_KG_M3
    ring_mm2 = 0.25 * math.pi * (
        insulated_diameter_mm(area_mm2, insulation) ** 2 - strands_diameter_mm(area_mm2) ** 2
    )
    return 1e-3 * (copper + ring_mm2 * insulation.density_kg_m3)
