"""A network as a netlist for a general-purpose circuit simulator, and what that simulator finds.

The laws of the devices are written out a second time here, in the simulator's own language; junction
diodes are its own model. `python -m tests.reference.netlist` writes the netlists and records anew.
"""

from __future__ import annotations

import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.elements import (
    AnyElement,
    IdealDiode,
    Junction,
    Limiter,
    Load,
    Pack,
    Regulator,
    Switch,
)
from hardstand.engines.power.network.network import Network
from hardstand.engines.power.network.profile import Phase
from tests.reference.networks import NETWORKS

FOLDER = Path(__file__).parent / "netlists"
SIMULATOR = "ngspice"
STEP_S = 0.02
EDGE_S = 0.001  # over which a load changes
RECORD_EVERY = 5
Floats = NDArray[np.float64]


def _bend(x: str) -> str:
    """ln(1 + e^x) without overflow."""
    return f"({x}>40 ? {x} : ln(1+exp(max(-60,min(40,{x})))))"


def _pairs(xs: Sequence[float], ys: Sequence[float]) -> str:
    """Points of a straight-line curve."""
    return ", ".join(f"{x:g}, {y:g}" for x, y in zip(xs, ys, strict=True))


def _pack(one: Pack) -> Iterator[str]:
    """A source that follows the charge, which a capacitor of the capacity keeps."""
    emf = f"{one.cells}*pwl(v(q_{one.id}), {_pairs(one.curve_charge, one.curve_v)})"
    factor = ""
    if one.resistance_factors:
        factor = f"*pwl(v(q_{one.id}), {_pairs(one.curve_charge, one.resistance_factors)})"
    yield f"B_{one.id} e_{one.id} {one.start} V={emf}-i(V_{one.id})*{one.resistance_mohm / 1e3:g}{factor}"
    yield f"V_{one.id} e_{one.id} {one.end} 0"
    yield f"C_{one.id} q_{one.id} 0 {3.6 * one.capacity_mah:g}"
    yield f"F_{one.id} q_{one.id} 0 V_{one.id} 1"
    yield f"R_{one.id} q_{one.id} 0 1e12"
    yield f".ic v(q_{one.id})={one.charge:g}"


def _diode(one: IdealDiode) -> Iterator[str]:
    """A knee and a slope, and a leak."""
    z = f"((v({one.start})-v({one.end})-{one.drop_v:g})/{one.knee_v:g})"
    slope = 1e3 / one.resistance_mohm * one.knee_v
    rest = f"ln(1+exp({-one.drop_v / one.knee_v:.12g}))"
    yield f"B_{one.id} {one.start} {one.end} I={slope:.12g}*({_bend(z)}-{rest})"
    yield f"R_{one.id} {one.start} {one.end} 1e6"


def _junction(one: Junction) -> Iterator[str]:
    """The simulator's own diode."""
    yield f"D_{one.id} {one.start} {one.end} m_{one.id}"
    yield f".model m_{one.id} D(IS={one.saturation_a:g} N={one.emission:g} RS={one.resistance_mohm / 1e3:g})"


def _regulator(one: Regulator) -> Iterator[str]:
    """A bend between set voltage and headroom, another at no current, a third at the limit."""
    inside, outside, knee = f"v({one.start})", f"v({one.end})", one.knee_v
    short = f"(({one.set_v:g}-{inside}+{one.dropout_v:g})/{knee:g})"
    yield f"B_d_{one.id} d_{one.id} 0 V={one.set_v:g}-{knee:g}*{_bend(short)}"
    drive = f"((v(d_{one.id})-{outside})/{knee:g})"
    yield f"B_i_{one.id} i_{one.id} 0 V={knee * 1e3 / one.resistance_mohm:.12g}*{_bend(drive)}"
    out = f"v(i_{one.id})"
    if np.isfinite(one.limit_a):
        wide = 0.02 * one.limit_a
        out = f"(v(i_{one.id})-{wide:g}*{_bend(f'((v(i_{one.id})-{one.limit_a:g})/{wide:g})')})"
    share = "1"
    if one.efficiency_pct:
        share = f"max({outside},0)/({one.efficiency_pct / 100:g}*max({inside},0.5))"
    yield f"B_o_{one.id} 0 {one.end} I={out}"
    yield f"B_{one.id} {one.start} 0 I={out}*{share}"
    yield f"R_{one.id} {one.end} 0 1e6"


def _limiter(one: Limiter) -> Iterator[str]:
    """A resistance with a bend at both limits."""
    wide = 0.02 * one.limit_a
    x = f"((v({one.start})-v({one.end}))*{1e3 / one.resistance_mohm:.12g})"
    above, below = (f"(({sign}{x}-{one.limit_a:g})/{wide:g})" for sign in ("", "-"))
    yield f"B_{one.id} {one.start} {one.end} I={x}+{wide:g}*({_bend(below)}-{_bend(above)})"


def _load(one: Load) -> Iterator[str]:
    """A current by voltage, whose size is the voltage of a node of its own."""
    v, size, floor = f"(v({one.start})-v({one.end}))", f"v(a_{one.id})", one.floor_v
    part = f"({v}/{floor:g})"
    fall = f"({v}>{floor:g} ? 1 : {v}>0 ? {part}*(2-{part}) : 2*{part})"
    law = {
        "current": f"{size}*{fall}",
        "power": f"{size}*{one.at_v:g}/max({v},{floor:g})*{fall}",
        "resistance": f"{size}*{v}/{one.at_v:g}",
    }[one.law]
    if one.cut_off_v > 0.0:
        law += f"/(1+exp(max(-60,min(60,-({v}-{one.cut_off_v:g})/0.005))))"
    yield f"B_{one.id} {one.start} {one.end} I={law}"


def _element(one: AnyElement) -> Iterator[str]:
    """The lines of one element."""
    if isinstance(one, Pack):
        yield from _pack(one)
    elif isinstance(one, IdealDiode):
        yield from _diode(one)
    elif isinstance(one, Junction):
        yield from _junction(one)
    elif isinstance(one, Regulator):
        yield from _regulator(one)
    elif isinstance(one, Limiter):
        yield from _limiter(one)
    elif isinstance(one, Load):
        yield from _load(one)
    elif not isinstance(one, Switch) or one.closed:
        yield f"R_{one.id} {one.start} {one.end} {one.resistance_mohm / 1e3:g}"


def _stepped(one: Load, phases: Sequence[Phase]) -> str:
    """The size of a load over the phases, with short edges about their borders."""
    values = [phase.load_a.get(one.id, one.draw_a) for phase in phases]
    points, time_s = [(0.0, values[0])], 0.0
    for phase, before, after in zip(phases, values, values[1:], strict=False):
        time_s += phase.lasts_s
        if before != after:
            points += [(time_s - EDGE_S / 2, before), (time_s + EDGE_S / 2, after)]
    text = " ".join(f"{at:.9g} {value:.9g}" for at, value in points)
    return f"V_a_{one.id} a_{one.id} 0 PWL({text})"


def body(network: Network, driven: Callable[[Load], str]) -> list[str]:
    """The lines of a network whose loads are driven by lines of the caller's."""
    lines = [line for one in network.elements for line in _element(one)]
    lines += [driven(load) for load in network.loads]
    return [*lines, ".options reltol=1e-6 abstol=1e-9 vntol=1e-8 gmin=1e-12 temp=27 tnom=27"]


def netlist(name: str) -> str:
    """The whole netlist of one of the ten networks, which writes its result to `out`."""
    network, phases = NETWORKS[name]()
    last_s = sum(phase.lasts_s for phase in phases)
    lines = [
        f"* {name}",
        *body(network, lambda load: _stepped(load, phases)),
        ".control",
        f"tran {STEP_S:g} {last_s:g} 0 {STEP_S:g}",
        "linearize",
        "set wr_singlescale",
        "set wr_vecnames",
        "option numdgt=9",
        "wrdata out " + " ".join(f"v({node})" for node in network.nodes),
        "quit",
        ".endc",
        ".end",
    ]
    return "\n".join(lines) + "\n"


def present() -> bool:
    """Whether the simulator is on this machine."""
    return shutil.which(SIMULATOR) is not None


def simulate(text: str) -> Floats:
    """Run the simulator on a netlist; time and voltages, (times, 1 + nodes)."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "net.cir").write_text(text, encoding="utf-8")
        done = subprocess.run(
            [SIMULATOR, "-b", "net.cir"],
            cwd=folder,
            capture_output=True,
            text=True,
            check=False,
            timeout=300,
        )
        out = next((p for p in Path(folder).iterdir() if p.name.startswith("out")), None)
        if out is None:
            raise RuntimeError(done.stdout[-2000:] + done.stderr[-2000:])
        return np.loadtxt(out, skiprows=1)


def recorded(name: str) -> Floats:
    """What the simulator found when the netlists were written, (times, 1 + nodes)."""
    return np.loadtxt(FOLDER / f"{name}.csv", delimiter=",", skiprows=1)


def record(name: str) -> None:
    """Write a netlist and what the simulator finds for it, every tenth of a second."""
    text = netlist(name)
    (FOLDER / f"{name}.cir").write_text(text, encoding="utf-8", newline="\n")
    table = simulate(text)[::RECORD_EVERY]
    head = ",".join(("s", *NETWORKS[name]()[0].nodes))
    with (FOLDER / f"{name}.csv").open("w", encoding="utf-8", newline="\n") as file:
        np.savetxt(file, table, fmt="%.7g", delimiter=",", header=head, comments="")


if __name__ == "__main__":
    for each in NETWORKS:
        record(each)
