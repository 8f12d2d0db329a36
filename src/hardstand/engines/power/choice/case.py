"""All that the choice of wire is made of: leads with lengths, metal and currents, and the network."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.harness.model import Feed, Netlist, Supply
from hardstand.engines.power.choice.currents import LeadCurrents
from hardstand.engines.power.choice.downstream import Downstream
from hardstand.engines.power.model import Moments, PowerNetwork

Floats = NDArray[np.float64]
USUAL_U = 0.05  # of a current of which nothing is known: as of one known to a tenth


@dataclass(frozen=True, eq=False)
class Case:
    """All that the choice is made of: leads (L) with lengths (mm), metal (nan: not known), currents.

    `u_current` (L) is the relative standard uncertainty of their currents.
    """

    power: PowerNetwork
    moments: Moments
    net: Netlist
    supply: Supply
    limits: Mapping[str, Any]
    leads: tuple[str, ...]
    length_mm: Floats
    area_mm2: Floats
    currents: LeadCurrents
    after: Downstream
    u_current: Floats

    def high(self, limit: str) -> float:
        """The upper limit of a figure."""
        high = self.limits[limit].high
        return float("inf") if high is None else float(high)

    @property
    def feeds(self) -> tuple[Feed, ...]:
        """The ways of power that the leads are part of, each once."""
        return tuple(dict.fromkeys(one for lead in self.leads for one in self.after.feeds[lead]))


def spread_of(supply: Supply, leads: Sequence[str]) -> tuple[Floats, Floats]:
    """Relative slopes of the leads' currents (L, inputs of the supply's figures), and relative u (L)."""
    figures = supply.figures
    row = {address: at for at, address in enumerate(figures.addresses)}
    slopes = np.zeros((len(leads), len(figures.inputs)))
    for at, lead in enumerate(leads):
        place = row.get(f"harness.wire-load@{lead}")
        if place is not None and figures.values[place] > 0.0:
            slopes[at] = figures.sensitivity[place] / figures.values[place]
    known = (slopes != 0.0).any(axis=1)
    return slopes, np.where(known, np.sqrt(slopes**2 @ figures.input_u**2), USUAL_U)
