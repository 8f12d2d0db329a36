"""What warms a lead from outside: the hottest bundle that it lies in."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.harness.model import Netlist
from hardstand.engines.power.choice.laid import Laid
from hardstand.engines.power.choice.sizes import outside_mm, strands_mohm_per_m
from hardstand.engines.power.choice.warmth import heat_w_per_m
from hardstand.engines.power.defaults import WIRE_AREA_MM2

Floats = NDArray[np.float64]


def conductors_of(net: Netlist, lead: str) -> int:
    """How many wires a lead has; two at least, for power goes there and back."""
    one = net.leads[lead]
    return max(one.row.conductors or len(one.conductors), 2)


def others(net: Netlist, laid: Laid, current_a: Mapping[str, float]) -> dict[str, tuple[float, float]]:
    """Heat (W/m) and squares (mm2) of what each lead is tied to, where that warms it most.

    Parameters: `current_a`, the lasting current of each lead without a failure, A; others have none.
    A lead that is in no bundle is left out.
    """
    names = list(dict.fromkeys(one for bundle in laid.bundles for one in bundle))
    area = np.array([net.leads[one].area_mm2 or WIRE_AREA_MM2 for one in names])
    amperes = np.array([current_a.get(one, 0.0) for one in names])
    heats = heat_w_per_m(amperes, strands_mohm_per_m(area))
    squares = np.array([conductors_of(net, one) for one in names]) * outside_mm(area) ** 2
    own = dict(zip(names, zip(heats.tolist(), squares.tolist(), strict=True), strict=True))
    found: dict[str, tuple[float, tuple[float, float]]] = {}
    for bundle in laid.bundles:
        heat, square = (sum(own[one][k] for one in bundle) for k in (0, 1))
        for one in bundle:
            around = heat - own[one][0]
            hot = around / square**0.5
            if one not in found or hot > found[one][0]:
                found[one] = hot, (around, square - own[one][1])
    return {lead: pair for lead, (_, pair) in found.items()}
