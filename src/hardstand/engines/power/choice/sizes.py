"""The wire that can be bought: gauges and cross-sections, with resistance, thickness and mass.

Sources: ASTM B258 for the gauges, of which the even ones are in the shops; cross-sections of IEC
60228 from 0.5 mm2 on, the smaller ones common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from hardstand.standards.wire_insulation import PVC, insulated_diameter_mm
from hardstand.standards.wire_resistance import STRANDED, conductor_area_mm2, mohm_per_m

Floats = NDArray[np.float64]
# Thinner wire breaks at its plugs: common practice. Gauge 26 and 0.14 mm2 count as alike.
GAUGES = tuple(range(26, 3, -2))
SECTIONS_MM2 = (0.14, 0.25, 0.34, 0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0)


@dataclass(frozen=True, eq=False)
class Ladder:
    """Standard sizes from thin to thick: `sizes` as they are called, and their metal in mm2, (S)."""

    unit: Literal["awg", "mm2"]
    sizes: tuple[float, ...]
    area_mm2: Floats


AWG = Ladder("awg", GAUGES, np.array([conductor_area_mm2(one) for one in GAUGES]))
MM2 = Ladder("mm2", SECTIONS_MM2, np.array(SECTIONS_MM2))


def strands_mohm_per_m(area_mm2: Floats) -> Floats:
    """Resistance of one stranded conductor at 20 degrees C, mohm/m, by areas of any shape.

    >>> strands_mohm_per_m(np.array([0.5, 1.0])).round(1).tolist()
    [35.5, 17.8]

    Source: IEC 60028; the lay of the strands from memory.
    """
    return np.asarray(mohm_per_m(1.0, lay=STRANDED) / area_mm2)


def outside_mm(area_mm2: Floats) -> Floats:
    """Diameter of a wire with the thinnest usual insulation, mm, by areas of any shape.

    Thin insulation gives off the least heat, so that this is the cautious side.

    >>> outside_mm(np.array([0.5, 2.08])).round(2).tolist()
    [1.66, 2.76]

    Source: `standards.wire_insulation`, values from memory.
    """
    bare = insulated_diameter_mm(1.0, PVC) - 2.0 * PVC.wall_mm
    return np.asarray(2.0 * PVC.wall_mm + bare * np.sqrt(area_mm2))
