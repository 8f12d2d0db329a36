"""The laws of a network's elements in some cases: their figures as arrays."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.cases import Cases
from hardstand.engines.power.network.elements import (
    IdealDiode,
    Junction,
    Limiter,
    Load,
    Regulator,
)
from hardstand.engines.power.network.laws import (
    ELECTRON_VOLT_KELVIN,
    AnyLaw,
    DiodeLaw,
    JunctionLaw,
    LimiterLaw,
    LoadLaw,
    RegulatorLaw,
)
from hardstand.engines.power.network.network import Network

Floats = NDArray[np.float64]


def column(values: list[float]) -> Floats:
    """A column of values that all cases share."""
    return np.array(values, float)[:, None]


def _load_law(network: Network, given: Cases) -> LoadLaw:
    """The law of all loads; a stuck one draws its stuck current by the law of currents."""
    loads = network.loads
    a = given.load_a.T
    by = {
        law: np.array([load.law == law for load in loads], bool)[:, None]
        for law in ("current", "power", "resistance")
    }
    at_v = column([load.at_v for load in loads])
    stuck = given.stuck.T[network.where(Load)]
    stuck_a = column([load.draw_a if load.stuck_a is None else load.stuck_a for load in loads])
    on = np.where((given.opened | given.shorted).T[network.where(Load)], 0.0, 1.0)
    if not stuck.any():  # keep one column where all cases share it
        stuck = stuck[:, :1]
    return LoadLaw(
        on * np.where(stuck, stuck_a, np.where(by["current"], a, 0.0)),
        on * np.where(by["power"] & ~stuck, a * at_v, 0.0),
        on * np.where(by["resistance"] & ~stuck, a / at_v, 0.0),
        column([load.floor_v for load in loads]),
        column([load.cut_off_v for load in loads]),
    )


def laws(network: Network, given: Cases, on: Floats) -> list[tuple[type[Any], AnyLaw]]:
    """The law of every kind that has one."""
    diodes, junctions = network.of(IdealDiode), network.of(Junction)
    limiters, regulators = network.of(Limiter), network.regulators

    def ohm(kind: type[Any]) -> Floats:
        return column([1e-3 * one.resistance_mohm for one in network.of(kind)])

    kelvin = [273.15 + one.temperature_degc for one in junctions]
    return [
        (
            IdealDiode,
            DiodeLaw(
                on[network.where(IdealDiode)],
                1.0 / ohm(IdealDiode),
                column([one.drop_v for one in diodes]),
                column([one.knee_v for one in diodes]),
            ),
        ),
        (
            Junction,
            JunctionLaw(
                on[network.where(Junction)],
                ohm(Junction),
                column([one.saturation_a for one in junctions]),
                column(
                    [
                        one.emission * ELECTRON_VOLT_KELVIN * k
                        for one, k in zip(junctions, kelvin, strict=True)
                    ]
                ),
            ),
        ),
        (
            Limiter,
            LimiterLaw(
                on[network.where(Limiter)],
                ohm(Limiter),
                column([one.limit_a for one in limiters]),
            ),
        ),
        (
            Regulator,
            RegulatorLaw(
                on[network.where(Regulator)],
                given.set_v.T,
                column([one.dropout_v for one in regulators]),
                ohm(Regulator),
                column([one.knee_v for one in regulators]),
                column([one.limit_a for one in regulators]),
                column([(one.efficiency_pct or 0.0) / 100.0 for one in regulators]),
            ),
        ),
        (Load, _load_law(network, given)),
    ]
