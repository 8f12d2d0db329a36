"""The big aeroplane that times are taken of: each of its copies is wired so that it works."""

from __future__ import annotations

from functools import cache
from typing import Any

from benchmarks.ten_times import COPIES, ten_times
from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import in_order
from hardstand.description.read import read_texts
from hardstand.engines.harness import STAGE as HARNESS
from hardstand.engines.node import Earlier, Slices
from hardstand.engines.power.stage import STAGE as POWER


@cache
def built() -> AsBuilt:
    """The big aeroplane."""
    return build(read_texts(ten_times()).description)


@cache
def results() -> dict[str, Any]:
    """What harness and power work out of its circuit; lanes and routes are left out."""
    found: dict[str, Any] = {}
    nodes = in_order(node for one in (HARNESS, POWER) for node in one.nodes)
    for node in nodes:
        if all(need in found for need in node.needs) and node.name != "harness.routes":
            found[node.name] = node.run(Slices(built(), node.reads, node.name),
                                        Earlier(found, node.needs, node.name))  # fmt: skip
    return found


def test_it_is_as_large_as_it_is_called() -> None:
    """Some 250 items and 600 leads."""
    assert 240 <= len(built().items) <= 260
    assert 550 <= len(built().leads) <= 650


def test_its_copies_are_wired_like_the_demo() -> None:
    """Nothing is wrong with plugs, poles, supplies and channels; channels at outputs reach what they drive."""
    assert results()["harness.circuit-findings"] == []
    for one in results()["harness.channels"].channels:
        assert not one.outputs or set(one.drives) <= set(one.reaches)


def test_each_copy_has_packs_and_islands_of_its_own() -> None:
    """The packs of no two copies meet; what is fed is as much in each."""
    power = results()["power.network"]
    assert len(power.groups) == 3 * COPIES
    assert len({tuple(sorted(packs)) for packs, _ in power.groups}) == 3 * COPIES
    assert len(power.consumers) % COPIES == 0
    assert len([one for one in results()["power.islands"] if one.power.packs]) == 3 * COPIES
