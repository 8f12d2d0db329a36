"""No node reads what it does not declare, and none declares what it does not read."""

from __future__ import annotations

from dataclasses import fields
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import pytest

import hardstand
from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import assess, in_order
from hardstand.description.read import read_folder, read_texts
from hardstand.engines.node import Earlier, Node, Slices
from hardstand.stages import stages
from tests.aeroplanes import SMALL, WEIGHED, texts
from tests.description.reading import HEAD
from tests.fuzz.aeroplanes import small_aeroplane

DEMO = Path(hardstand.__file__).parent / "data" / "demo"
NODES = tuple(node for stage in stages() for node in stage.nodes)


@cache
def aeroplane(name: str) -> AsBuilt:
    """The demo's folders, the least, small ones made by hand and by chance."""
    if name == "strained":
        # a lamp that draws more than any, so that a lead disturbs aerials, and a rail that cannot hold
        files = {one.relative_to(DEMO / "s1").as_posix(): one.read_text("utf-8")
                 for one in (DEMO / "s1").rglob("*.toml") if one.name != "expected.toml"}  # fmt: skip
        main = files["aeroplane.toml"].replace("moving_a = 0.038", "moving_a = 9.0")
        main += '\n[[limit]]\nid = "power.rail"\nlow = 8.0\nreason = "tried"\n'
        return build(read_texts(files | {"aeroplane.toml": main}).description)
    if name.startswith("s"):
        return build(read_folder(DEMO / name).description)
    if name == "least":
        return build(read_texts({"aeroplane.toml": HEAD}).description)
    if name == "weighed":
        return build(read_texts(texts(SMALL, WEIGHED.format(nose=1000, left=4000, right=4000))).description)
    return build(read_texts(small_aeroplane(Random(int(name)))).description)  # noqa: S311 to be had again


NAMES = ["least", "weighed", "strained", "s0", "s1", "s2", *(str(number) for number in range(12))]


@pytest.mark.parametrize("name", NAMES)
def test_no_node_reads_what_it_does_not_declare(name: str) -> None:
    """Every node of every stage, on every aeroplane: reading more would raise."""
    found = assess(aeroplane(name), stages())
    assert set(found.results) == {node.name for node in NODES}


class Watched:
    """What a node was given, and which names of it were asked for."""

    def __init__(self, inner: Any, read: set[str]) -> None:
        self._inner, self._read = inner, read

    def __getattr__(self, name: str) -> Any:
        self._read.add(name)
        return getattr(self._inner, name)

    def __getitem__(self, name: str) -> Any:
        self._read.add(name)
        return self._inner[name]


@cache
def read_by_nodes() -> dict[str, tuple[set[str], set[str]]]:
    """Slices and results that each node reads on any of the aeroplanes."""
    read: dict[str, tuple[set[str], set[str]]] = {node.name: (set(), set()) for node in NODES}
    for name in NAMES:
        asbuilt = aeroplane(name)
        results: dict[str, Any] = {}
        for node in in_order(NODES):
            slices = Watched(Slices(asbuilt, node.reads, node.name), read[node.name][0])
            earlier = Watched(Earlier(results, node.needs, node.name), read[node.name][1])
            results[node.name] = node.run(slices, earlier)
    return read


@pytest.mark.parametrize("node", NODES, ids=lambda node: node.name)
def test_what_a_node_declares_it_reads(node: Node) -> None:
    """A slice or result that is never read would make the node run again for nothing."""
    slices, results = read_by_nodes()[node.name]
    assert slices == set(node.reads)
    assert results == set(node.needs)


@pytest.mark.parametrize("node", NODES, ids=lambda node: node.name)
def test_every_slice_that_is_declared_is_one_of_the_aeroplanes(node: Node) -> None:
    """And nothing is declared twice."""
    assert set(node.reads) <= {one.name for one in fields(AsBuilt)}
    assert len(set(node.reads)) == len(node.reads)
    assert len(set(node.needs)) == len(node.needs)


def test_names_of_nodes_are_their_stages_own() -> None:
    """`stage.step`, each once, and every stage that has rules has findings."""
    assert len({node.name for node in NODES}) == len(NODES)
    for stage in stages():
        assert all(node.name.startswith(f"{stage.name}.") for node in stage.nodes)
        if stage.rules:
            assert any(node.name == f"{stage.name}.findings" for node in stage.nodes)
