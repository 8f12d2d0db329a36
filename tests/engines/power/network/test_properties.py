"""What holds for every network and every case, whatever its numbers."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hardstand.engines.power.network.cases import Cases, cases
from hardstand.engines.power.network.elements import Pack
from hardstand.engines.power.network.failures import single_failures, with_failures
from hardstand.engines.power.network.network import Network
from hardstand.engines.power.network.solve import solve, solve_once
from tests.reference.networks import NETWORKS, one_hub, two_hubs

HUBS = {"one_hub": one_hub()[0], "two_hubs": two_hubs()[0]}
SMALLER_V = 1e-7  # rounding, and the voltage at which a search stops


def _case(net: Network, seed: int, count: int = 12, scale: float = 8.0) -> Cases:
    """Cases with loads up to a multiple of what the elements say and packs at any charge."""
    random = np.random.default_rng(seed)
    usual = np.array([max(load.draw_a, 0.2) for load in net.loads])
    return cases(
        net,
        load_a=usual * random.uniform(0.0, scale, (count, len(usual))),
        charge=random.uniform(0.0, 1.0, (count, len(net.packs))),
    )


@pytest.mark.parametrize("name", HUBS)
@given(seed=st.integers(0, 2**32 - 1), data=st.data())
@settings(max_examples=12, deadline=None)
def test_more_load_never_raises_a_node(name: str, seed: int, data: st.DataObject) -> None:
    """Where one load draws more, no node of the network rises."""
    net = HUBS[name]
    before = _case(net, seed)
    load_a = before.load_a.copy()
    load_a[:, data.draw(st.integers(0, len(net.loads) - 1))] *= data.draw(st.floats(1.0, 5.0))
    low, high = solve_once(net, replace(before, load_a=load_a)), solve_once(net, before)
    sound = low.settled & high.settled
    assert sound.all()
    assert np.all(low.node_v <= high.node_v + SMALLER_V)


@pytest.mark.parametrize("name", HUBS)
@given(seed=st.integers(0, 2**32 - 1), data=st.data())
@settings(max_examples=12, deadline=None)
def test_a_fuller_pack_never_lowers_a_node(name: str, seed: int, data: st.DataObject) -> None:
    """Where one pack is fuller, no node of the network falls."""
    net = HUBS[name]
    before = _case(net, seed, scale=3.0)
    charge = before.charge.copy()
    charge[:, data.draw(st.integers(0, len(net.packs) - 1))] += data.draw(st.floats(0.0, 0.5))
    high = solve_once(net, replace(before, charge=np.minimum(charge, 1.0)))
    low = solve_once(net, before)
    assert high.settled.all()
    assert np.all(low.node_v <= high.node_v + SMALLER_V)


@pytest.mark.parametrize("name", HUBS)
@given(seed=st.integers(0, 2**32 - 1), factor=st.floats(1.0, 5.0))
@settings(max_examples=12, deadline=None)
def test_an_older_pack_never_raises_a_node(name: str, seed: int, factor: float) -> None:
    """Where the packs resist more, no node of the network rises."""
    net = HUBS[name]
    before = _case(net, seed, scale=3.0)
    worn = replace(before, resistance_factor=np.full((1, len(net.packs)), factor))
    assert np.all(solve_once(net, worn).node_v <= solve_once(net, before).node_v + SMALLER_V)


@pytest.mark.parametrize("name", NETWORKS)
@given(seed=st.integers(0, 2**32 - 1), scale=st.floats(0.0, 40.0))
@settings(max_examples=10, deadline=None)
def test_every_case_is_solved(name: str, seed: int, scale: float) -> None:
    """Any loads, even absurd ones: each case settles, its currents balance to a nanoampere."""
    net = NETWORKS[name]()[0]
    found = solve_once(net, _case(net, seed, scale=scale))
    assert found.settled.all()
    assert found.residual_a.max() < 1e-9
    highest = found.emf_v.max(axis=1, keepdims=True)
    assert np.all(found.node_v > -1e-6)
    assert np.all(found.node_v < highest + 1e-6)


@pytest.mark.parametrize("name", NETWORKS)
@given(seed=st.integers(0, 2**32 - 1))
@settings(max_examples=3, deadline=None)
def test_every_failure_is_solved(name: str, seed: int) -> None:
    """Every single failure, from any state, settles and balances; heat is never below zero."""
    net = NETWORKS[name]()[0]
    moments = _case(net, seed, count=3, scale=3.0)
    found = solve(net, with_failures(net, moments, [None, *single_failures(net)]))
    assert found.settled.all()
    assert found.residual_a.max() < 1e-8  # a short circuit of hundreds of amperes rounds by more
    assert found.heat_w.min() > -1e-6
    given_w = (found.emf_v * found.current_a[:, net.where(Pack)]).sum(axis=1)
    lost_w = (found.heat_w + found.fault_w).sum(axis=1)
    assert lost_w == pytest.approx(given_w, rel=1e-6, abs=1e-3)


@pytest.mark.parametrize("name", NETWORKS)
def test_a_case_does_not_know_its_neighbours(name: str) -> None:
    """A case solved alone has the voltages that it has among others, to a tenth of a microvolt."""
    net = NETWORKS[name]()[0]
    every = _case(net, 5, count=30, scale=3.0)
    together = solve(net, every)
    for at in (0, 13, 29):
        alone = solve(net, every.take(np.array([at])))
        assert alone.node_v[0] == pytest.approx(together.node_v[at], abs=1e-7)
