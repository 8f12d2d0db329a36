"""The network in islands: the same as the network solved whole, and as what was kept from before."""

from __future__ import annotations

import re
from dataclasses import fields
from functools import cache
from random import Random
from typing import Any

import numpy as np
import pytest

from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import Assessment, Memory, assess
from hardstand.cli.begin import demo_texts
from hardstand.description.read import read_texts
from hardstand.engines.harness import STAGE as HARNESS
from hardstand.engines.power.islands import Island, islands
from hardstand.engines.power.model import Choices, Failures, Moments, PowerNetwork
from hardstand.engines.power.network.failures import single_failures, with_failures
from hardstand.engines.power.network.solve import solve
from hardstand.engines.power.stage import STAGE as POWER
from hardstand.engines.power.states import asked, cases_of, factors
from hardstand.engines.power.sweep import sweep
from hardstand.figures import FigureSet

TEXTS = demo_texts("after-flights")
NUMBER = re.compile(r"^(length_mm|moving_a|peak_a|moving_pct|stall_pct|duration_s) = (\d+\.?\d*)", re.MULTILINE)
LEAD = re.compile(r"^\[\[lead\]\]\n(?:[^\[\n][^\n]*\n|\n)*", re.MULTILINE)


def described(main: str) -> AsBuilt:
    """The demo with another main file."""
    return build(read_texts({**TEXTS, "aeroplane.toml": main}).description)


def assessed(main: str, memory: Memory | None = None) -> Assessment:
    """What harness and power say of it."""
    return assess(described(main), [HARNESS, POWER], memory)


@cache
def demo() -> Assessment:
    """The demo itself."""
    return assessed(TEXTS["aeroplane.toml"])


@cache
def loosened() -> Assessment:
    """The demo without the lead from the gear's pack and that of the pump: stretches that are dead."""
    main = re.sub(r'(?m)^to = "(gear-controller.pack|fuel-pump.motor)"$', 'to = "unknown"',
                  TEXTS["aeroplane.toml"])  # fmt: skip
    assert main.count("unknown") > TEXTS["aeroplane.toml"].count("unknown")
    return assessed(main)


@pytest.mark.parametrize("aeroplane", [demo, loosened])
def test_islands_share_out_the_network(aeroplane: Any) -> None:
    """Every node, element and consumer is in exactly one island, and none joins two."""
    power: PowerNetwork = aeroplane().results["power.network"]
    parts = islands(power)
    assert len(parts) >= 3
    for name, count in (("nodes", len(power.network.nodes)), ("consumers", len(power.consumers)),
                        ("elements", len(power.network.elements))):  # fmt: skip
        every = np.concatenate([getattr(one, name) for one in parts])
        assert sorted(every.tolist()) == list(range(count))
    for one in parts:
        own = {*one.power.network.nodes, "0"}
        assert all({each.start, each.end} <= own for each in one.power.network.elements)
    assert sum(not one.power.packs for one in parts) <= 1


@pytest.mark.parametrize("aeroplane", [demo, loosened])
def test_moments_of_islands_are_those_of_the_whole(aeroplane: Any) -> None:
    """Volts, amperes and loads of all moments, solved as one network."""
    power: PowerNetwork = aeroplane().results["power.network"]
    found: Moments = aeroplane().results["power.moments"]
    built = described(TEXTS["aeroplane.toml"])
    these = asked(power, built.phases, built.duties)
    whole = solve(power.network, cases_of(power, these, these.currents.a, factors(power)))
    assert these.moments == found.moments
    assert np.allclose(whole.node_v, found.node_v, rtol=0.0, atol=1e-9)
    assert np.allclose(whole.current_a, found.current_a, rtol=0.0, atol=1e-7)  # through milliohms
    assert np.array_equal(whole.fed, found.fed)
    assert np.array_equal(whole.settled, found.settled)
    assert np.allclose((these.weights * these.currents.a).sum(axis=2), found.load_a)
    assert np.allclose((these.peak * these.currents.a).sum(axis=1), found.peak_a)
    assert these.peak_at == found.peak_at


@pytest.mark.parametrize("aeroplane", [demo, loosened])
def test_failures_of_islands_are_those_of_the_whole(aeroplane: Any) -> None:
    """Every failure of every element, and every plug pair parted, solved as one network."""
    power: PowerNetwork = aeroplane().results["power.network"]
    built = described(TEXTS["aeroplane.toml"])
    these = asked(power, built.phases, built.duties)
    names = [one.name for one in these.moments]
    moments = cases_of(power, these, these.currents.a, factors(power)).take(
        np.array([names.index("peak"), names.index("warm")]))  # fmt: skip
    single = single_failures(power.network)
    swept = with_failures(power.network, moments, (None, *single, *(None for _ in power.together)))
    for place, leads in enumerate(power.together.values(), 1 + len(single)):
        columns = [power.network.element_at[one] for lead in leads for one in power.of_lead[lead]]
        swept.opened[2 * place : 2 * place + 2, columns] = True
    whole = solve(power.network, swept)
    found = sweep(power, islands(power), built.phases, built.duties)
    assert found.failures[1 : 1 + len(single)] == tuple((one.element, one.kind) for one in single)
    assert np.allclose(whole.node_v[::2], found.node_v, rtol=0.0, atol=1e-9)
    assert np.allclose(whole.node_v[1::2], found.full_v, rtol=0.0, atol=1e-9)
    assert np.array_equal(whole.fed[::2], found.fed)
    assert np.array_equal(whole.settled.reshape(-1, 2).all(axis=1), found.settled)
    lasting = [row for row, one in enumerate(found.failures) if one[1] != "short"]
    amperes = np.abs(whole.current_a).reshape(len(found.failures), 2, -1)
    assert np.allclose(amperes[lasting].max(axis=0), found.most_a, rtol=0.0, atol=1e-7)
    there = np.take_along_axis(amperes, found.most_at[None], axis=0)[0]
    assert np.allclose(there, found.most_a, rtol=0.0, atol=1e-7)
    assert all(found.failures[at][1] != "short" for at in found.most_at.ravel().tolist())


def edited(main: str, random: Random) -> str:
    """The main file with a number changed, or a lead gone."""
    if random.random() < 0.3:
        gone = random.choice(list(LEAD.finditer(main)))
        name = re.search(r'id = "([^"]+)"', gone[0])
        if name is not None and f'= "{name[1]}"' not in main.replace(gone[0], ""):
            return main.replace(gone[0], "")
    one = random.choice(list(NUMBER.finditer(main)))
    value = float(one[2]) * random.choice((0.5, 1.25))
    return f"{main[: one.start()]}{one[1]} = {value:g}{main[one.end() :]}"


def same(one: Any, other: Any) -> bool:
    """Whether two results are the same to the bit."""
    if isinstance(one, np.ndarray):
        return bool(np.array_equal(one, other))
    if isinstance(one, Moments | Failures | Choices | FigureSet):
        return all(same(getattr(one, each.name), getattr(other, each.name)) for each in fields(one))
    return bool(one == other)


@pytest.mark.parametrize("seed", range(4))
def test_what_is_kept_changes_nothing(seed: int) -> None:
    """After each of some edits the assessment is that which is made anew, to the bit."""
    random, memory = Random(seed), Memory()  # noqa: S311 to be had again
    main = TEXTS["aeroplane.toml"].partition("[[option]]")[0]
    assessed(main, memory)
    for _ in range(4):
        main = edited(main, random)
        kept, anew = assessed(main, memory), assessed(main)
        assert kept.findings == anew.findings
        for name in ("power.moments", "power.failures", "power.choice"):
            assert same(kept.results[name], anew.results[name])


def test_a_changed_lamp_leaves_the_other_islands() -> None:
    """Of the islands only that with the lamp is another after its current is changed."""
    main = TEXTS["aeroplane.toml"]
    changed = main.replace("moving_a = 0.038", "moving_a = 0.039")
    assert changed != main
    before: tuple[Island, ...] = demo().results["power.islands"]
    after: tuple[Island, ...] = assessed(changed).results["power.islands"]
    other = [one.power.packs for one, two in zip(before, after, strict=True)
             if one.content != two.content]  # fmt: skip
    assert other == [("gear-pack",)]


def test_a_moved_item_leaves_power_as_it_is() -> None:
    """Places are no matter of the circuit: what rests on it alone is not worked out again."""
    memory, main = Memory(), TEXTS["aeroplane.toml"]
    before = assessed(main, memory).results
    moved = main.replace("at_mm = [742, -62]", "at_mm = [742.1, -62]")
    assert moved != main
    after = assessed(moved, memory).results
    assert after["harness.netlist"].ports != before["harness.netlist"].ports
    for name in ("harness.circuit", "harness.supply", "harness.channels", "harness.circuit-findings",
                 "power.network", "power.islands", "power.moments", "power.endurance",
                 "power.failures", "power.choice", "power.findings"):  # fmt: skip
        assert after[name] is before[name]


def test_a_pack_that_nothing_hangs_on_is_an_island_of_its_own() -> None:
    """With its lead's far end unknown the turbine's pack gives nothing, and everything else goes on."""
    main, count = re.subn(r'(?m)^to = "turbine-control-unit.pack"$', 'to = "unknown"', TEXTS["aeroplane.toml"])
    assert count == 1
    found = assessed(main)
    parts: tuple[Island, ...] = found.results["power.islands"]
    (alone,) = [one.power for one in parts if one.power.packs == ("control-unit-pack",)]
    assert not alone.consumers
    moments: Moments = found.results["power.moments"]
    power: PowerNetwork = found.results["power.network"]
    assert not moments.current_a[:, power.network.element_at["control-unit-pack"]].round(6).any()
    assert found.figure("power.rail@distribution-unit.rail").value > 5.0
