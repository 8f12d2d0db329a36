"""What is there: the plugs of a lead, and what another wire would weigh more."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.harness.model import Netlist
from hardstand.engines.power.choice.case import Case
from hardstand.engines.power.choice.tied import conductors_of
from hardstand.standards.wire_insulation import wire_g_per_m

Floats = NDArray[np.float64]


def mass_g(case: Case, lead: str, row: int, metal: Floats) -> float | None:
    """What the chosen wire weighs more than that which is there, g; a branch from where it parts."""
    if not np.isfinite(metal).all():
        return None
    one = case.net.leads[lead].row
    long_mm = case.length_mm[row] - (one.branch_after_mm if one.branch_of is not None else 0.0)
    per_m = wire_g_per_m(float(metal[1])) - wire_g_per_m(float(metal[0]))
    same = abs(metal[1] / metal[0] - 1.0) < 1e-9
    return 0.0 if same else float(per_m * conductors_of(case.net, lead) * 1e-3 * max(long_mm, 0.0))


def plugs_of(net: Netlist, lead: str) -> tuple[str, str]:
    """The classes of plug at both ends: the lead's own, else the port's."""
    row = net.leads[lead].row
    own = (row.from_connector or row.connector, row.to_connector or row.connector)
    first, second = (name or net.ports[end].connector
                     for name, end in zip(own, net.leads[lead].ends, strict=True))  # fmt: skip
    return first, second
