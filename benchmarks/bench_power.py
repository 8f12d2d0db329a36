"""The power network: a flight and all single failures, ours against a circuit simulator.

Run it as a script. Both work on the same network (two packs on one rail, two more beside it, some
forty nodes) in steps of 20 ms, each the best of several. The simulator's time is that of its process
less that of one which simulates a single step, so that its start and its reading of the netlist do
not count; its results stay in its memory. It is run as it comes, with tolerances a thousand times
wider than ours, and its loads follow smooth functions of time, which it likes best. Without the
simulator only our own times are shown.
"""

from __future__ import annotations

import subprocess
import tempfile
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from time import perf_counter

import numpy as np

from hardstand.engines.power.network.cases import cases
from hardstand.engines.power.network.elements import Load, Pack
from hardstand.engines.power.network.failures import Failure
from hardstand.engines.power.network.flight import Flight, fly
from hardstand.engines.power.network.network import Network, network
from hardstand.engines.power.network.profile import Phase, Profile, of_phases
from hardstand.engines.power.network.sweep import sweep
from tests.reference.netlist import SIMULATOR, STEP_S, body, present
from tests.reference.networks import one_hub

LASTS_S = 600.0
ROUNDS = 3
RHYTHMS = 8
MOMENTS = 10
FLIGHT_AT_MOST, SWEEP_AT_LEAST = 1.0, 20.0


def best_of(call: Callable[[], object], rounds: int = ROUNDS) -> float:
    """Least of several times of a call, in s."""
    times = []
    for _ in range(rounds):
        start = perf_counter()
        call()
        times.append(perf_counter() - start)
    return min(times)


def noisy(net: Network) -> Profile:
    """Ten minutes of stick work and chatter, the loads in eight rhythms."""
    plain = of_phases(net, [Phase("flight", LASTS_S, {})], STEP_S)
    time_s, rhythm = plain.middle_s[:, None], np.arange(len(net.loads)) % RHYTHMS
    stick = 1.0 + 0.8 * np.sin(0.9 * time_s + 0.7 * rhythm)
    chatter = 0.15 * np.sin(44.0 * time_s + rhythm) * np.sin(31.0 * time_s + 2.0 * rhythm)
    return replace(plain, load_a=plain.load_a * (stick + chatter))


def driven(net: Network) -> list[str]:
    """The network in the simulator's words, its loads in the same rhythms; default tolerances."""
    rhythms = {load.id: at % RHYTHMS for at, load in enumerate(net.loads)}
    lines = body(net, lambda one: f"E_a_{one.id} a_{one.id} 0 m{rhythms[one.id]} 0 {one.draw_a}")
    for at in range(RHYTHMS):
        chatter = f"0.15*sin(44*time+{at})*sin(31*time+{2 * at})"
        lines.append(f"B_m{at} m{at} 0 V=1+0.8*sin(0.9*time+{0.7 * at})+{chatter}")
    return [line for line in lines if not line.startswith(".options")]


def run(lines: list[str], control: list[str]) -> float:
    """Time in s of one process of the simulator."""
    text = "\n".join(["* power", *lines, ".control", *control, "quit", ".endc", ".end"]) + "\n"
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "net.cir").write_text(text, encoding="utf-8")
        start = perf_counter()
        done = subprocess.run(
            [SIMULATOR, "-b", "net.cir"], cwd=folder, capture_output=True, text=True, check=True
        )
        assert "fatal" not in done.stdout.lower() + done.stderr.lower(), done.stdout + done.stderr
        return perf_counter() - start


def simulated_flight_s(net: Network) -> float:
    """Time in s that the simulator needs for the flight itself."""
    lines = driven(net)

    def least(last_s: float) -> float:
        order = f"tran {STEP_S:g} {last_s:g} 0 {STEP_S:g}"
        return min(run(lines, [order]) for _ in range(ROUNDS))

    return least(LASTS_S) - least(STEP_S)


def at_moment(net: Network, flight: Flight, step: int) -> Network:
    """The network as it is at one step of a flight, for the simulator's operating point."""
    given = flight.moments(cases(net), np.array([step]))
    draws = dict(zip((load.id for load in net.loads), given.load_a[0].tolist(), strict=True))
    charges = dict(zip((pack.id for pack in net.packs), given.charge[0].tolist(), strict=True))
    return network(
        replace(one, draw_a=draws[one.id])
        if isinstance(one, Load)
        else replace(one, charge=charges[one.id])
        if isinstance(one, Pack)
        else one
        for one in net.elements
    )


def simulated_failures_s(
    net: Network, flight: Flight, failures: tuple[Failure, ...]
) -> tuple[float, float]:
    """Time in s of one operating point with an element taken out: a process, and less its start.

    Broken leads stand for all failures; a dozen of them are timed.
    """
    here = at_moment(net, flight, int(flight.worst("rail")[0]))
    whole, start = [], min(run(["R1 a 0 1", "V1 a 0 1"], ["op"]) for _ in range(5))
    for failure in [one for one in failures if one.kind == "open"][:12]:
        lines = [
            line
            for line in body(here, lambda load: f"V_a_{load.id} a_{load.id} 0 {load.draw_a:.9g}")
            if not line.startswith((f"R_{failure.element} ", ".options"))
        ]
        whole.append(run(lines, ["tran 1m 1m"]))
    mean = float(np.mean(whole))
    return mean, max(mean - start, 1e-4)


def main() -> None:
    """Print both times and their ratios, and hold them to what they must reach."""
    net, _ = one_hub()
    profile = noisy(net)
    flight = fly(net, profile)
    assert flight.solution.settled.all()
    ours = best_of(lambda: fly(net, profile))
    print(f"{len(net.nodes)} nodes, {len(net.elements)} elements, best of {ROUNDS}")
    print(f"flight of {LASTS_S:.0f} s in {len(profile.step_s)} steps: {ours:.2f} s")
    moments = flight.moments(cases(net), flight.worst("rail", MOMENTS))
    swept = sweep(net, moments)
    failures = tuple(one for one in swept.failures if one is not None)
    count = len(swept.failures) * MOMENTS
    assert swept.solution.settled.all()
    swept_s = best_of(lambda: sweep(net, moments), 5)
    print(f"{len(failures)} failures at {MOMENTS} moments, {count} cases: {1e3 * swept_s:.0f} ms")
    if not present():
        print(f"{SIMULATOR} is not installed, no ratios")
        return
    theirs = simulated_flight_s(net)
    print(f"flight: simulator {theirs:.2f} s; ratio {ours / theirs:.2f} (at most {FLIGHT_AT_MOST})")
    process_s, inside_s = simulated_failures_s(net, flight, failures)
    ratio, inside = count * process_s / swept_s, count * inside_s / swept_s
    print(
        f"failures: simulator {1e3 * process_s:.1f} ms each, {1e3 * inside_s:.1f} ms without its start"
    )
    print(f"failures: {ratio:.0f} times faster than a run each (at least {SWEEP_AT_LEAST:.0f})")
    print(f"failures: {inside:.0f} times faster without the simulator's start")
    assert ratio >= SWEEP_AT_LEAST
    assert ours <= FLIGHT_AT_MOST * theirs


if __name__ == "__main__":
    main()
