"""What makes a list of elements no network: every fault found, each with the element's name."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from hardstand.engines.power.network.elements import (
    GROUND,
    AnyElement,
    IdealDiode,
    Junction,
    Limiter,
    Load,
    Pack,
    Regulator,
)

LEAST_MOHM = 1e-6  # less loses the current in the rounding of the voltages


class NetworkError(ValueError):
    """The elements do not make a network; `faults` holds one sentence each."""

    def __init__(self, faults: list[str]) -> None:
        super().__init__("; ".join(faults))
        self.faults = tuple(faults)


def _pack(pack: Pack) -> Iterator[str]:
    """Faults of a pack."""
    charges, count = pack.curve_charge, len(pack.curve_charge)
    if pack.cells < 1 or not pack.capacity_mah > 0.0:
        yield "needs at least one cell and a capacity above 0 mAh"
    if count < 2 or len(pack.curve_v) != count or len(pack.resistance_factors) not in (0, count):
        yield "needs a curve of two points or more, with as many voltages as charges"
    elif any(b <= a for a, b in pairwise(charges)):
        yield "needs the charges of its curve in rising order"
    if not 0.0 <= pack.charge <= 1.0:
        yield f"has a charge of {pack.charge:g}, which must be 0 to 1"
    if any(factor <= 0.0 for factor in pack.resistance_factors):
        yield "needs resistance factors above 0"


def _load(load: Load) -> Iterator[str]:
    """Faults of a load."""
    if not 0.0 <= load.draw_a < math.inf:
        yield f"draws {load.draw_a:g} A, which must be 0 or more"
    if not load.at_v > 0.0 or not load.floor_v > 0.0 or load.cut_off_v < 0.0:
        yield "needs a voltage and a floor above 0 V, and no cut-off below 0 V"
    if load.law not in ("current", "power", "resistance"):
        yield f"has the law {load.law!r}, which must be current, power or resistance"


def _regulator(regulator: Regulator) -> Iterator[str]:
    """Faults of a regulator."""
    if GROUND in (regulator.start, regulator.end):
        yield "regulates against ground, so that neither end can be ground"
    efficiency_pct = regulator.efficiency_pct
    if efficiency_pct is not None and not 0.0 < efficiency_pct <= 100.0:
        yield "needs an efficiency above 0 and up to 100 %"
    if not regulator.set_v > 0.0 <= regulator.dropout_v:
        yield "needs a set voltage above 0 V and a dropout of 0 V or more"


def _own_faults(element: AnyElement) -> Iterator[str]:
    """Faults of one element by itself."""
    if element.start == element.end:
        yield f"begins and ends at {element.start!r}"
    if isinstance(element, Load):
        yield from _load(element)
        return
    if not LEAST_MOHM <= element.resistance_mohm < math.inf:
        yield f"has {element.resistance_mohm:g} mΩ, which must be {LEAST_MOHM:g} or more"
    if isinstance(element, Pack):
        yield from _pack(element)
    if isinstance(element, Regulator):
        yield from _regulator(element)
    if isinstance(element, IdealDiode | Regulator) and not element.knee_v > 0.0:
        yield "needs a knee above 0 V"
    if isinstance(element, Limiter | Regulator) and not element.limit_a > 0.0:
        yield "needs a limit above 0 A"
    if isinstance(element, Junction) and not element.saturation_a > 0.0 < element.emission:
        yield "needs a saturation current above 0 A and an emission above 0"


def faults(elements: tuple[AnyElement, ...]) -> list[str]:
    """Every fault of a list of elements, as sentences that name the element.

    >>> from hardstand.engines.power.network.elements import Resistor
    >>> faults((Resistor(id="H01", start="a", end="a", resistance_mohm=5.8),))
    ["H01 begins and ends at 'a'", "no element touches the ground node '0'"]
    """
    seen: set[str] = set()
    found = []
    for element in elements:
        found += [f"{element.id} {fault}" for fault in _own_faults(element)]
        if element.id in seen:
            found.append(f"{element.id} is the name of two elements")
        seen.add(element.id)
    if not any(GROUND in (element.start, element.end) for element in elements):
        found.append(f"no element touches the ground node {GROUND!r}")
    return found
