"""The laws of the elements: their slopes, and that none of them is a source."""

from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.power.network.cases import cases
from hardstand.engines.power.network.laws import RegulatorLaw
from hardstand.engines.power.network.prepared import Part, prepare
from tests.reference.networks import NETWORKS

PARTS = [
    pytest.param(part, id=f"{name}-{type(part.law).__name__}")
    for name in NETWORKS
    for net in (NETWORKS[name]()[0],)
    for part in prepare(net, cases(net)).parts
]


@pytest.mark.parametrize("part", PARTS)
@pytest.mark.parametrize("wide_v", [0.0, 0.1])
def test_slopes_are_slopes(part: Part, wide_v: float) -> None:
    """All four slopes are what differences of the currents give."""
    random = np.random.default_rng(3)
    start, end = random.uniform(0.3, 9.0, (2, len(part.at), 400))
    end[:, ::2] = start[:, ::2] + random.uniform(-0.1, 0.02, end[:, ::2].shape)
    step = 1e-7
    flow = part.law.flow(start, end, wide_v)
    for name, d_start, d_end in (("start", step, 0.0), ("end", 0.0, step)):
        above = part.law.flow(start + d_start, end + d_end, wide_v)
        below = part.law.flow(start - d_start, end - d_end, wide_v)
        for side in ("into", "out"):
            by_differences = (getattr(above, side) - getattr(below, side)) / (2.0 * step)
            slope = np.broadcast_to(getattr(flow, f"{side}_{name}"), by_differences.shape)
            assert slope == pytest.approx(by_differences, rel=2e-4, abs=2e-4)


@pytest.mark.parametrize("part", PARTS)
def test_no_element_gives_power(part: Part) -> None:
    """At any two voltages an element takes power from the network, or none."""
    start, end = np.random.default_rng(5).uniform(0.0, 10.0, (2, len(part.at), 2000))
    if not isinstance(part.law, RegulatorLaw):
        start[:, ::2] -= 5.0
    flow = part.law.flow(start, end)
    assert np.min(start * flow.into - end * flow.out) > -1e-9
