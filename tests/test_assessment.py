from __future__ import annotations

from collections import Counter
from dataclasses import replace
from functools import partial
from typing import Any

import numpy as np
import pytest

from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import PLANNED, Memory, assess, in_order
from hardstand.description.read import read_texts
from hardstand.engines.node import Earlier, Node, Slices, Stage, UndeclaredReadError
from hardstand.figures import FigureSet
from hardstand.findings import Finding, Rule
from tests.aeroplanes import SMALL, swapped, texts


def as_built(main: str = SMALL) -> AsBuilt:
    """A small aeroplane, read anew each time as after an edit."""
    return build(read_texts(texts(main)).description)


class Figures:
    """A result with figures."""

    def __init__(self, address: str) -> None:
        self.figures = FigureSet((address,), np.array([1.0]), ("g",), (), np.zeros((1, 0)))


def stage(
    nodes: tuple[Node, ...], *, name: str = "fit", described: bool = True, missing: tuple[str, ...] = (),
    acceptable: bool = True,
) -> Stage:
    """A stage of these nodes with one rule."""
    rule = Rule(f"{name}.touch", "touches", "", "", "", acceptable=acceptable)
    return Stage(name, f"the {name}", nodes, (rule,), lambda _: described, lambda _: missing)


class Counted:
    """Nodes that count their runs: masses → sum → findings, and panels by themselves."""

    def __init__(self) -> None:
        self.runs: Counter[str] = Counter()

    def _node(self, name: str, reads: tuple[str, ...], needs: tuple[str, ...], version: int = 1) -> Node:
        def run(slices: Slices, earlier: Earlier) -> Any:
            self.runs[name] += 1
            for one in reads:
                getattr(slices, one)
            for one in needs:
                earlier[one]
            return [] if name.endswith("findings") else name

        return Node(name, reads, needs, run, version)

    def stages(self, version: int = 1) -> tuple[Stage, ...]:
        """One stage, its nodes in no useful order."""
        return (stage((
            self._node("fit.findings", ("limits",), ("fit.sum", "fit.panels")),
            self._node("fit.sum", (), ("fit.masses",)),
            self._node("fit.panels", ("panels",), (), version),
            self._node("fit.masses", ("masses", "states"), ()),
        )),)  # fmt: skip


EDITS: list[tuple[str, str, set[str]]] = [
    ("mass_g = 6000", "mass_g = 6001", {"fit.masses", "fit.sum", "fit.findings"}),
    ("fuel_pct = 20", "fuel_pct = 21", {"fit.masses", "fit.sum", "fit.findings"}),
    ("root_chord_mm = 500", "root_chord_mm = 501", {"fit.panels", "fit.findings"}),
    ('name = "Small"', 'name = "Other"', set()),
    ("density_kg_m3 = 800", "density_kg_m3 = 801", set()),
    ("mass_g = 6000", "mass_g = 6000.0  # the same", set()),
    ("[fuel]", '[[limit]]\nid = "fit.box-gap"\nlow = 1\nreason = "so"\n[fuel]', {"fit.findings"}),
]


@pytest.mark.parametrize("old, new, again", EDITS)
def test_after_an_edit_only_what_depends_on_it_runs_again(old: str, new: str, again: set[str]) -> None:
    """Counted over a fresh reading of the edited text; a second look at either runs nothing."""
    counted, memory = Counted(), Memory()
    stages = counted.stages()
    assess(as_built(), stages, memory)
    assert set(counted.runs.values()) == {1}
    counted.runs.clear()
    assess(as_built(), stages, memory)
    assert not counted.runs
    assess(as_built(swapped(SMALL, old, new)), stages, memory)
    assert counted.runs == Counter(again)
    counted.runs.clear()
    assess(as_built(), stages, memory)
    assert not counted.runs


def test_a_new_version_of_a_method_runs_again() -> None:
    """With what needs it."""
    counted, memory = Counted(), Memory()
    assess(as_built(), counted.stages(), memory)
    counted.runs.clear()
    assess(as_built(), counted.stages(version=2), memory)
    assert counted.runs == Counter({"fit.panels", "fit.findings"})


def test_what_needs_a_settled_result_waits_until_it_is_another() -> None:
    """A node that settles runs with its slice; what needs it only where it comes to something else."""
    runs: Counter[str] = Counter()

    def heavy(slices: Slices, _: Earlier) -> list[str]:
        runs["fit.heavy"] += 1
        return [one.id for one in slices.masses if one.mass.value > 7000.0]

    def told(_: Slices, earlier: Earlier) -> list[str]:
        runs["fit.told"] += 1
        return list(earlier["fit.heavy"])

    memory = Memory()
    stages = (stage((Node("fit.heavy", ("masses",), (), heavy, settles=True),
                     Node("fit.told", (), ("fit.heavy",), told))),)  # fmt: skip
    for mass, told_again in (("6000", True), ("6001", False), ("8000", True), ("8001", False),
                             ("6001", True), ("6001", False)):  # fmt: skip
        runs.clear()
        aeroplane = as_built(swapped(SMALL, "mass_g = 6000", f"mass_g = {mass}"))
        results = assess(aeroplane, stages, memory).results
        assert results["fit.told"] == assess(aeroplane, stages).results["fit.told"]
        assert runs["fit.told"] == 1 + told_again


def test_a_settled_result_in_another_order_is_another() -> None:
    """Equal mappings whose keys changed places are not the same: what lists them would list them as before."""
    def heavy(slices: Slices, _: Earlier) -> dict[str, float]:
        return {one.id: one.mass.value for one in sorted(slices.masses, key=lambda one: -one.at[0].value)}

    def told(_: Slices, earlier: Earlier) -> list[str]:
        return list(earlier["fit.heavy"])

    stages = (stage((Node("fit.heavy", ("masses",), (), heavy, settles=True),
                     Node("fit.told", (), ("fit.heavy",), told))),)  # fmt: skip
    memory, first = Memory(), as_built()
    moved = [replace(one, at=(replace(one.at[0], value=-one.at[0].value), *one.at[1:]))
             for one in first.masses]  # fmt: skip
    turned = replace(first, masses=tuple(moved))
    assert assess(turned, stages).results["fit.told"] != assess(first, stages).results["fit.told"]
    for aeroplane in (first, turned, first):
        warm = assess(aeroplane, stages, memory).results["fit.told"]
        assert warm == assess(aeroplane, stages).results["fit.told"]


def test_without_a_memory_everything_runs() -> None:
    """Nothing is kept between two assessments behind one's back."""
    counted = Counted()
    for _ in range(2):
        assess(as_built(), counted.stages())
    assert set(counted.runs.values()) == {2}


def test_the_memory_keeps_what_was_used_last() -> None:
    """The one not asked for longest goes first."""
    memory = Memory(most=2)
    made: list[str] = []

    def make(key: str) -> str:
        made.append(key)
        return key

    for key in ("a", "b", "a", "c", "a", "b"):
        assert memory.get_or(key, partial(make, key)) == key
    assert made == ["a", "b", "c", "b"]


def node(name: str, *needs: str) -> Node:
    """A node that does nothing."""
    return Node(name, (), needs, lambda _slices, _earlier: None)


def test_nodes_run_after_what_they_need() -> None:
    """Whatever the order in which they are given."""
    nodes = [node("d", "b", "c"), node("c", "a"), node("b", "a"), node("a")]
    ran: list[str] = []
    assess(as_built(), (stage(tuple(nodes)),), progress=ran.append)
    assert ran[0] == "a"
    assert ran[-1] == "d"
    assert [one.name for one in in_order(nodes)] == ran


@pytest.mark.parametrize(
    "nodes", [[node("a", "b"), node("b", "a")], [node("a", "a")], [node("a", "nowhere"), node("c")]]
)
def test_a_circle_or_a_gap_is_refused(nodes: list[Node]) -> None:
    """Named by the nodes that wait."""
    with pytest.raises(ValueError, match=r"nodes wait for one another or for what does not exist: \['a'"):
        in_order(nodes)


def test_a_node_cannot_read_what_it_does_not_declare() -> None:
    """Neither a slice nor a result; a private name neither."""
    def reads(slices: Slices, _: Earlier) -> Any:
        return slices.panels

    def needs(_: Slices, earlier: Earlier) -> Any:
        return earlier["a"]

    for node_, words in ((Node("b", ("masses",), (), reads), "b reads panels"),
                         (Node("b", (), (), needs), "b needs a")):  # fmt: skip
        with pytest.raises(UndeclaredReadError, match=words):
            assess(as_built(), (stage((node("a"), node_)),))


ACCEPT = '[[accept]]\nid = "x"\ncode = "fit.touch"\nabout = [{}]\nby = "owner"\nreason = "trial fit"\n'


def findings(acceptable: bool, about: str) -> tuple[Finding, ...]:
    """What is found where a no-go about two items is accepted for `about`."""
    found = [Finding("fit.touch", "no-go", ("gear-left", "nose"), "Touches."), Finding("fit.other", "note", (), "So.")]
    run = Node("fit.findings", (), (), lambda _slices, _earlier: found)
    asbuilt = as_built(SMALL + ACCEPT.format(about))
    return assess(asbuilt, (stage((run,), acceptable=acceptable),)).findings


@pytest.mark.parametrize(
    "about, acceptable, severity",
    [
        ('"gear-left", "nose"', True, "caution"),
        ('"nose", "gear-left"', True, "caution"),
        ('"nose"', True, "no-go"),
        ('"gear-left", "nose", "body"', True, "no-go"),
        ('"gear-left", "nose"', False, "no-go"),
    ],
)
def test_a_finding_is_accepted_where_its_rule_allows(about: str, severity: str, *, acceptable: bool) -> None:
    """For exactly what it is about, in whatever order; else it stands."""
    found = findings(acceptable, about)
    assert found[0].code == ("fit.touch")
    assert found[0].severity == severity
    assert bool(found[0].accepted) == (severity == "caution")
    assert len(found) == 2


def test_how_far_each_stage_got() -> None:
    """All planned stages in their order: assessed, partly with what is missing, or not at all."""
    stages = (stage((), name="balance", missing=("the wing",)), stage((), name="fit"),
              stage((), name="fuel", described=False))  # fmt: skip
    found = assess(as_built(), stages)
    assert [one.name for one in found.stages] == list(PLANNED)
    by_name = {one.name: one for one in found.stages}
    assert by_name["fit"].as_json() == {"state": "assessed", "title": "the fit", "missing": []}
    assert by_name["balance"].as_json() == {"state": "partly", "title": "the balance", "missing": ["the wing"]}
    for name in ("fuel", "power"):
        assert (by_name[name].standing, by_name[name].missing) == ("not assessed", ("nothing described",))


def test_figures_are_found_by_address() -> None:
    """In whichever result they are; results without figures are passed over."""
    nodes = (Node("fit.a", (), (), lambda _s, _e: Figures("fit.mass@ref")), node("fit.b"))
    found = assess(as_built(), (stage(nodes),))
    assert found.addresses() == ["fit.mass@ref"]
    assert found.figure("fit.mass@ref").value == 1.0
    assert found.set_of("fit.mass@ref").addresses == ("fit.mass@ref",)
    with pytest.raises(KeyError, match=r"fit\.nothing"):
        found.figure("fit.nothing")


def test_the_worst_finding_and_the_plain_form() -> None:
    """Worst first; nothing found is None."""
    found = assess(as_built(), ())
    assert found.worst() is None
    assert found.as_json()["findings"] == []
    assert found.as_json()["aeroplane"] == "Small"
    worse = replace(found, findings=(Finding("a.b", "measure", (), "So."), Finding("a.b", "note", (), "So.")))
    assert worse.worst() == "measure"
