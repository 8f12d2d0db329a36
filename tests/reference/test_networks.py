"""Ten networks against a circuit simulator, textbook networks, and linear ones against libraries.

The simulator is ngspice 39.3 (Debian's package; the Berkeley SPICE3 family, L. W. Nagel, memorandum
UCB/ERL M520). Its netlists and what it found are stored in `netlists`; where it is installed it is run
afresh. Textbook cases are those of `data/dc_networks_and_batteries.toml`, each with its grade.
"""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from hardstand.engines.power.network.cases import cases
from hardstand.engines.power.network.elements import (
    AnyElement,
    IdealDiode,
    Junction,
    Load,
    Pack,
    Resistor,
)
from hardstand.engines.power.network.flight import Flight, fly
from hardstand.engines.power.network.network import network
from hardstand.engines.power.network.profile import of_phases
from hardstand.engines.power.network.solve import solve
from tests.reference.netlist import FOLDER, SIMULATOR, netlist, present, recorded, simulate
from tests.reference.networks import NETWORKS

DATA = Path(__file__).parent / "data" / "dc_networks_and_batteries.toml"
CASES: dict[str, dict[str, Any]] = {
    case["id"]: case for case in tomllib.loads(DATA.read_text(encoding="utf-8"))["case"]
}
MASK_S = 0.06  # about an edge of a load: the simulator's steps round it off
STEP_S = 0.02


@cache
def _flown(name: str) -> Flight:
    """One of the ten networks flown by us."""
    net, phases = NETWORKS[name]()
    return fly(net, of_phases(net, phases, STEP_S))


def _greatest_miss_mv(name: str, table: NDArray[np.float64]) -> float:
    """Greatest difference of a node voltage between ours and the simulator's, in mV."""
    flight = _flown(name)
    edges_s = np.cumsum([phase.lasts_s for phase in NETWORKS[name]()[1]])
    time_s = table[:, 0]
    away = np.abs(time_s[:, None] - edges_s).min(axis=1) > MASK_S
    away &= time_s > MASK_S
    assert np.count_nonzero(away) > 20
    ours = np.column_stack(
        [np.interp(time_s, flight.profile.middle_s, v) for v in flight.solution.node_v.T]
    )
    return float(1e3 * np.abs(ours - table[:, 1:])[away].max())


@pytest.mark.parametrize("name", NETWORKS)
def test_as_the_simulator_found(name: str) -> None:
    """Every node has the voltage that the simulator found, within 1 mV away from edges of loads."""
    assert (FOLDER / f"{name}.cir").read_text(encoding="utf-8") == netlist(name)
    assert _greatest_miss_mv(name, recorded(name)) < 1.0


@pytest.mark.skipif(
    not present(), reason=f"{SIMULATOR} is not installed: only its record is compared"
)
@pytest.mark.parametrize("name", NETWORKS)
def test_as_the_simulator_finds_now(name: str) -> None:
    """Run afresh, the simulator agrees at every fiftieth of a second away from edges of loads."""
    assert _greatest_miss_mv(name, simulate(netlist(name))) < 1.0


@pytest.mark.parametrize("name", NETWORKS)
def test_currents_and_powers_balance(name: str) -> None:
    """At every node less than a nanoampere is left over, and what packs give others take.

    Kirchhoff's law of currents and Tellegen's theorem.
    """
    solution = _flown(name).solution
    assert solution.settled.all()
    assert solution.residual_a.max() < 1e-9
    bled = 1e-6 * (solution.node_v**2).sum(axis=1)  # the dividers of regulators, at the most
    assert np.all(np.abs(solution.taken_w.sum(axis=1)) < 1e-8 + bled)


@pytest.mark.parametrize("name", NETWORKS)
def test_the_charge_is_the_integral_of_the_current(name: str) -> None:
    """What a pack has lost is its current summed over the steps, to a microampere hour."""
    flight = _flown(name)
    net = flight.solution.network
    current_a = flight.solution.current_a[:, net.where(Pack)]
    used_mah = (current_a * flight.profile.step_s[:, None]).sum(axis=0) / 3.6
    assert flight.used_mah == pytest.approx(used_mah, abs=1e-6)


# ---- Textbook networks


def _source(name: str, end: str, volts: float, ohm: float, start: str = "0") -> Pack:
    """A source with internal resistance, the same at any charge."""
    return Pack(
        id=name,
        start=start,
        end=end,
        cells=1,
        capacity_mah=1e6,
        resistance_mohm=1e3 * ohm,
        curve_charge=(0.0, 1.0),
        curve_v=(volts, volts),
    )


def _resistive(name: str, start: str, ohm: float, end: str = "0") -> Resistor:
    """A resistor by its ohms."""
    return Resistor(id=name, start=start, end=end, resistance_mohm=1e3 * ohm)


def _case(name: str) -> tuple[dict[str, Any], dict[str, Any], float]:
    """A case's inputs, expected values and absolute tolerance."""
    case = CASES[name]
    return case["inputs"], case["expected"], case["tolerance"]["abs"]


def test_dc_01_two_sources_feed_a_load() -> None:
    """Two sources and a load: the weaker one is charged.

    J. O. Bird, Electrical Circuit Theory and Technology, chapter 13, examples 2, 5, 9, 13; seen.
    """
    given, expected, tolerance = _case("dc-01")
    sources = zip("ab", given["source_V"], given["source_resistance_ohm"], strict=True)
    net = network(
        [
            *(_source(name, "bus", v, ohm) for name, v, ohm in sources),
            _resistive("load", "bus", given["load_ohm"]),
        ]
    )
    found = solve(net)
    assert found.volts("bus")[0] == pytest.approx(expected["load_voltage_V"], abs=tolerance)
    currents = [found.amperes(name)[0] for name in "ab"]
    assert currents == pytest.approx(expected["source_current_A"], abs=tolerance)
    assert found.amperes("load")[0] == pytest.approx(expected["load_current_A"], abs=tolerance)
    power_w = found.heat_w[0, net.element_at["load"]]
    assert power_w == pytest.approx(expected["load_power_W"], abs=tolerance)


def test_dc_02_unbalanced_bridge() -> None:
    """An unbalanced bridge; its supply has no resistance, so each upper arm carries it in itself.

    J. O. Bird, chapter 13, examples 4 and 11; seen.
    """
    given, expected, tolerance = _case("dc-02")
    found = solve(
        network(
            [
                _source("ul", "left", given["supply_V"], given["upper_left_ohm"]),
                _source("ur", "right", given["supply_V"], given["upper_right_ohm"]),
                _resistive("bridge", "left", given["bridge_ohm"], "right"),
                _resistive("ll", "left", given["lower_left_ohm"]),
                _resistive("lr", "right", given["lower_right_ohm"]),
            ]
        )
    )
    arms = ("ul", "ur", "bridge", "ll", "lr")
    assert sorted(abs(found.amperes(arm)[0]) for arm in arms) == pytest.approx(
        sorted(expected["current_A"]), abs=tolerance
    )
    total = found.amperes("ul")[0] + found.amperes("ur")[0]
    assert total == pytest.approx(expected["total_A"], abs=tolerance)


def test_dc_03_cells_in_series_and_parallel() -> None:
    """Cells in series and parallel, their terminal voltage under load, resistance from two readings.

    J. O. Bird, chapter 4, examples 1 to 4; seen.
    """
    given, expected, _ = _case("dc-03")
    many = given["series_parallel"]
    ends = ["0", *(f"n{at}" for at in range(1, many["cells"])), "top"]
    row = [
        _source(f"c{at}", ends[at + 1], many["emf_V"], many["resistance_ohm"], ends[at])
        for at in range(many["cells"])
    ]
    test = Load(id="test", start="top", end="0", draw_a=0.0, floor_v=0.001)
    tower = network([*row, test])
    open_v, loaded_v = solve(tower, cases(tower, load_a=[[0.0], [1.0]])).volts("top")
    assert open_v == pytest.approx(expected["series_emf_V"], abs=1e-9)
    assert open_v - loaded_v == pytest.approx(expected["series_ohm"], abs=1e-9)
    emf_v, ohm = many["emf_V"], many["resistance_ohm"]
    cells = [_source(f"c{at}", "top", emf_v, ohm) for at in range(many["cells"])]
    side = network([*cells, test])
    open_v, loaded_v = solve(side, cases(side, load_a=[[0.0], [1.0]])).volts("top")
    assert open_v - loaded_v == pytest.approx(expected["parallel_ohm"], abs=1e-9)
    ten = given["loaded"]
    found = solve(
        network(
            [
                _source(
                    "pack", "top", ten["cells"] * ten["emf_V"], ten["cells"] * ten["resistance_ohm"]
                ),
                _resistive("load", "top", ten["load_ohm"]),
            ]
        )
    )
    assert found.amperes("load")[0] == pytest.approx(expected["loaded_current_A"], abs=1e-9)
    assert found.volts("top")[0] == pytest.approx(expected["loaded_terminal_V"], abs=1e-9)
    cell = given["one_cell"]
    one = network([_source("cell", "top", cell["emf_V"], cell["resistance_ohm"]), test])
    found = solve(one, cases(one, load_a=[[a] for a in cell["current_A"]]))
    assert found.volts("top") == pytest.approx(expected["one_cell_V"], abs=1e-9)


def test_dc_04_two_supplies_by_diodes() -> None:
    """Of two supplies joined by diodes the higher one feeds, less a constant drop.

    R. L. Boylestad and L. Nashelsky, Electronic Devices and Circuit Theory, example 2.14; seen. The
    bend of our diode stands in for the textbook's corner: with a bend of a microvolt it is 10 µV off.
    """
    given, expected, _ = _case("dc-04")
    elements: list[AnyElement] = [_resistive("load", "bus", given["load_ohm"])]
    for name, volts in zip("ab", given["source_V"], strict=True):
        elements.append(_source(name, name, max(volts, 1e-9), 1e-3))
        elements.append(
            IdealDiode(
                id=f"d{name}",
                start=name,
                end="bus",
                resistance_mohm=1e-3,
                drop_v=given["diode_drop_V"],
                knee_v=1e-6,
            )
        )
    found = solve(network(elements))
    assert found.volts("bus")[0] == pytest.approx(expected["output_V"], abs=3e-5)
    assert 1e3 * found.amperes("load")[0] == pytest.approx(expected["load_current_mA"], abs=3e-5)
    assert bool(found.amperes("db")[0] > 2e-5) is expected["second_diode_conducts"]


def test_dc_05_two_packs_joined() -> None:
    """Two packs joined directly: who carries the load, and who charges whom.

    Kirchhoff's laws, closed form; memory.
    """
    given, expected, tolerance = _case("dc-05")
    packs = [
        _source(name, "bus", v, ohm)
        for name, v, ohm in zip("ab", given["pack_V"], given["pack_resistance_ohm"], strict=True)
    ]
    net = network([*packs, Load(id="load", start="bus", end="0", draw_a=0.0)])
    found = solve(net, cases(net, load_a=[[a] for a in given["load_current_A"]]))
    assert found.volts("bus") == pytest.approx(expected["bus_V"], abs=tolerance)
    assert found.amperes("a") == pytest.approx(expected["first_pack_A"], abs=tolerance)
    assert found.amperes("b") == pytest.approx(expected["second_pack_A"], abs=tolerance)


def test_dc_06_two_packs_by_exponential_diodes() -> None:
    """Two packs behind junction diodes with series resistance feed a resistor.

    Shockley's law; operating point by ngspice 39.3; seen.
    """
    given, expected, tolerance = _case("dc-06")
    diode = given["diode"]
    elements: list[AnyElement] = [_resistive("load", "bus", given["load_ohm"])]
    for name, volts in zip("ab", given["pack_V"], strict=True):
        elements.append(_source(name, name, volts, given["pack_resistance_ohm"]))
        elements.append(
            Junction(
                id=f"d{name}",
                start=name,
                end="bus",
                resistance_mohm=1e3 * diode["series_ohm"],
                saturation_a=diode["saturation_current_A"],
                emission=diode["emission"],
                temperature_degc=diode["temperature_C"],
            )
        )
    found = solve(network(elements))
    assert found.volts("bus")[0] == pytest.approx(expected["load_V"], abs=tolerance)
    assert found.amperes("da")[0] == pytest.approx(expected["first_pack_A"], abs=tolerance)
    assert abs(found.amperes("db")[0]) < expected["second_pack_A_below"]


# ---- Linear networks against general-purpose libraries


@pytest.mark.parametrize("seed", range(12))
def test_linear_networks_against_a_sparse_solver(seed: int) -> None:
    """Random meshed networks of resistors, sources and currents agree with a sparse direct solver.

    scipy.sparse.linalg.spsolve on the conductance matrix that networkx forms as a graph's Laplacian.
    """
    networkx = pytest.importorskip("networkx")
    sparse = pytest.importorskip("scipy.sparse.linalg")
    random = np.random.default_rng(seed)
    count = int(random.integers(5, 40))
    graph = networkx.gnm_random_graph(count, 2 * count, seed=seed)
    networkx.add_path(graph, range(count))
    drawn = random.uniform(0.0, 3.0, count)
    elements: list[AnyElement] = []
    for at, (a, b) in enumerate(graph.edges):
        graph.edges[a, b]["weight"] = siemens = 1.0 / random.uniform(0.003, 0.5)
        elements.append(_resistive(f"r{at}", f"n{a}", 1.0 / siemens, f"n{b}"))
    matrix = networkx.laplacian_matrix(graph, nodelist=range(count)).astype(float).tolil()
    right = -drawn
    for node in random.choice(count, 3, replace=False):
        emf, ohm = random.uniform(50.0, 60.0), random.uniform(0.01, 0.1)
        elements.append(_source(f"p{node}", f"n{node}", emf, ohm))
        matrix[node, node] += 1.0 / ohm
        right[node] += emf / ohm
    elements += [
        Load(id=f"l{node}", start=f"n{node}", end="0", draw_a=float(a), floor_v=0.01)
        for node, a in enumerate(drawn)
    ]
    expected = sparse.spsolve(matrix.tocsr(), right)
    found = solve(network(elements))
    ours = [found.volts(f"n{node}")[0] for node in range(count)]
    assert ours == pytest.approx(expected, abs=1e-9)


def test_resistance_between_two_points_against_a_graph_library() -> None:
    """The resistance of a meshed network between two points is networkx's resistance distance."""
    networkx = pytest.importorskip("networkx")
    graph = networkx.grid_2d_graph(4, 5)
    random = np.random.default_rng(7)
    for edge in graph.edges:
        graph.edges[edge]["weight"] = random.uniform(0.01, 1.0)
    last = (3, 4)

    def named(node: tuple[int, int]) -> str:
        return "0" if node == last else f"n{node[0]}_{node[1]}"

    leads = [
        _resistive(f"r{at}", named(a), graph.edges[a, b]["weight"], named(b))
        for at, (a, b) in enumerate(graph.edges)
    ]
    found = solve(network([*leads, _source("pack", named((0, 0)), 5.0, 0.1)]))
    ohm = found.volts("n0_0")[0] / found.amperes("pack")[0]
    expected = networkx.resistance_distance(
        graph, (0, 0), last, weight="weight", invert_weight=True
    )
    assert ohm == pytest.approx(expected, rel=1e-9)
