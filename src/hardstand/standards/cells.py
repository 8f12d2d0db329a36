"""Cells by chemistry: rest voltage by charge, resistance by temperature, charge and age, limits."""

from __future__ import annotations

import math
from dataclasses import dataclass

CHARGE = (
    0.0, 0.02, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1.0,
)
# Resistance over that at half charge: it rises as the cell empties. Value from memory.
CHARGE_FACTORS = (
    2.0, 1.8, 1.6, 1.35, 1.2, 1.1, 1.05, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0,
)
ZERO_DEGC_K = 273.15
REFERENCE_DEGC = 25.0


@dataclass(frozen=True, slots=True)
class Chemistry:
    """A kind of cell. Voltages are of one cell at rest; `open_v` belongs to `CHARGE`.

    `full_v` at the end of charging, `stop_v` below which it is harmed, `cautious_stop_v` where a
    careful owner stops, `storage_v` for keeping (0 where it does not matter). `warming_k` is how
    its resistance falls with temperature, see `temperature_factor`. `retire_share` of the capacity
    and `retire_factor` of the resistance when it is worn. `grade` is how surely `open_v` is known.
    """

    name: str
    open_v: tuple[float, ...]
    full_v: float
    nominal_v: float
    stop_v: float
    cautious_stop_v: float
    storage_v: float
    warming_k: float
    grade: str
    source: str
    retire_share: float = 0.80
    retire_factor: float = 1.5


LI_PO = Chemistry(
    name="li-po",
    open_v=(
        3.0, 3.3388, 3.5421, 3.6396, 3.6654, 3.6954, 3.7331, 3.7622, 3.7925, 3.8365, 3.9089,
        3.9945, 4.0879, 4.1384, 4.2,
    ),
    full_v=4.20,
    nominal_v=3.7,
    stop_v=3.0,
    cautious_stop_v=3.3,
    storage_v=3.8,
    warming_k=1950.0,
    grade="seen",
    source="W. Ai et al., J. Electrochem. Soc. 167 (2020) 013512, pouch cell, lithium cobalt oxide "
    "on graphite; drawn from its open parameter set",
)
LI_ION = Chemistry(
    name="li-ion",
    open_v=(
        2.5, 2.8625, 3.1094, 3.2959, 3.4339, 3.4852, 3.5814, 3.6670, 3.7509, 3.8406, 3.9479,
        4.0421, 4.0967, 4.1236, 4.2,
    ),
    full_v=4.20,
    nominal_v=3.6,
    stop_v=2.5,
    cautious_stop_v=3.0,
    storage_v=3.7,
    warming_k=1950.0,
    grade="seen",
    source="C.-H. Chen et al., J. Electrochem. Soc. 167 (2020) 080534, nickel-rich 5 Ah cell; drawn "
    "from its open parameter set",
)
LI_FE = Chemistry(
    name="li-fe",
    open_v=(
        2.0, 2.46, 2.7853, 2.9781, 3.1080, 3.1685, 3.2058, 3.2525, 3.2660, 3.2688, 3.2740, 3.3097,
        3.3142, 3.3164, 3.6,
    ),
    full_v=3.60,
    nominal_v=3.2,
    stop_v=2.0,
    cautious_stop_v=2.8,
    storage_v=3.3,
    warming_k=2300.0,
    grade="seen",
    source="E. Prada et al., J. Electrochem. Soc. 160 (2013) A616, iron phosphate on graphite; drawn "
    "from its open parameter set. The last twentieth is charged within minutes of rest",
)
NI_MH = Chemistry(
    name="ni-mh",
    open_v=(
        1.00, 1.10, 1.16, 1.20, 1.22, 1.24, 1.26, 1.28, 1.29, 1.30, 1.315, 1.33, 1.36, 1.38, 1.42,
    ),
    full_v=1.42,
    nominal_v=1.2,
    stop_v=0.9,
    cautious_stop_v=1.0,
    storage_v=0.0,
    warming_k=1500.0,
    grade="memory",
    source="value from memory",
)
CHEMISTRIES = {one.name: one for one in (LI_PO, LI_ION, LI_FE, NI_MH)}


def open_circuit_v(chemistry: str, charge: float) -> float:
    """Voltage in V of one cell at rest, by the charge that is left (0 to 1).

    Assumptions and validity: 25 degrees C, rested for an hour; straight between the points of the
    curve; cells of one chemistry differ by some 0.03 V. Beyond 0 and 1 the end's value.

    Raises KeyError for a chemistry that is not known.

    >>> open_circuit_v("li-po", 0.5), open_circuit_v("li-fe", 0.5)
    (3.7925, 3.266)

    Source: beside each chemistry.
    """
    open_v = CHEMISTRIES[chemistry].open_v
    charge = min(max(charge, 0.0), 1.0)
    for low, high, below, above in zip(CHARGE, CHARGE[1:], open_v, open_v[1:], strict=False):
        if charge <= high:
            return below + (above - below) * (charge - low) / (high - low)
    return open_v[-1]


def temperature_factor(chemistry: str, temperature_degc: float) -> float:
    """Resistance of a cell over that at 25 degrees C.

    Assumptions and validity: Arrhenius' law, -10 to 50 degrees C; good to some 20 %.

    >>> [round(temperature_factor("li-po", t), 1) for t in (25.0, 5.0, -5.0)]
    [1.0, 1.6, 2.1]

    Source: law by S. Arrhenius; its constants are fitted to 1.6 at 5 and 2 to 2.5 at -5 degrees C for
    lithium polymer, values from memory.
    """
    here, there = ZERO_DEGC_K + temperature_degc, ZERO_DEGC_K + REFERENCE_DEGC
    return math.exp(CHEMISTRIES[chemistry].warming_k * (1.0 / here - 1.0 / there))


def age_factor(cycles: float, worn_after: float = 200.0, worn_factor: float = 1.5) -> float:
    """Resistance of a cell over that when new, by the cycles that it has done.

    Assumptions and validity: a straight line to `worn_factor` after `worn_after` full cycles; a
    measured resistance is always better.

    >>> age_factor(0), age_factor(200)
    (1.0, 1.5)

    Source: common practice, no source.
    """
    return 1.0 + (worn_factor - 1.0) * cycles / worn_after
