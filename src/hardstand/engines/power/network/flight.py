"""A flight through a network: the packs run down, fuses and limiters open, failures happen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.cases import Cases, cases
from hardstand.engines.power.network.elements import Fuse, Limiter, Pack
from hardstand.engines.power.network.failures import FIELD
from hardstand.engines.power.network.feeding import fed
from hardstand.engines.power.network.model import Solution, joined
from hardstand.engines.power.network.network import Network
from hardstand.engines.power.network.newton import SETTLED_V, newton
from hardstand.engines.power.network.prepared import pack_sources, prepare
from hardstand.engines.power.network.profile import Happens, Profile
from hardstand.engines.power.network.solve import (
    finished,
    overloaded,
    shunts,
    solve_once,
)

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
CHUNK = 5000  # steps that are solved together: more do not fit the processor's memory
CHARGE_SETTLED = 1e-9
SWEEPS = 60


@dataclass(frozen=True, eq=False)
class Flight:
    """T steps of a flight, and what was in the packs.

    `charge` (T + 1, packs): fractions at the ends of the steps; `used_mah` (packs) over the flight;
    `tripped`, what opened of itself and when it did, by element; `solution` has T cases, each in the
    middle of its step.
    """

    profile: Profile
    solution: Solution
    charge: Floats
    used_mah: Floats
    tripped: tuple[tuple[str, float], ...]

    def worst(self, node: str, count: int = 1) -> NDArray[np.intp]:
        """Steps in which a node's voltage is lowest, the lowest first."""
        return np.argsort(self.solution.volts(node), kind="stable")[:count]

    def moments(self, given: Cases, steps: NDArray[np.intp]) -> Cases:
        """Cases of some steps, for `sweep`: loads, switches and charge as they were then."""
        middle = 0.5 * (self.charge[1:] + self.charge[:-1])
        closed = self.profile.closed
        return replace(
            given,
            load_a=self.profile.load_a[steps],
            charge=np.clip(middle[steps], 0.0, 1.0),
            closed=closed[steps] if len(closed) > 1 else closed,
        )


@dataclass
class _UnderWay:
    """What a flight carries from one stretch of steps to the next."""

    network: Network
    given: Cases
    charge: Floats
    rate_a: Floats  # mean current of every pack so far, to guess what follows
    v: Floats | None  # voltages at the end of the last stretch
    tripped: list[tuple[str, float]]


def _run_down(now: _UnderWay, part: Cases, step_s: Floats) -> tuple[Solution, Floats, Cases]:
    """Solve a stretch of steps with the charge that its own currents leave; charge at its ends.

    The first rounds need no more than a millivolt: the charge that they go by is only a guess.
    """
    network, count = now.network, len(step_s)
    per_amp = step_s[:, None] / np.array([3.6 * pack.capacity_mah for pack in network.packs])
    packs, ends = network.where(Pack), (network.plan, network.start, network.end)
    if now.v is None:
        first = replace(part.take(slice(0, 1)), charge=now.charge[None])
        now.v = solve_once(network, first).node_v[0]
    ready = prepare(network, replace(part, charge=now.charge[None]))
    _, alive = fed(network, part, ready)
    v = np.zeros((len(network.nodes) + 1, count))
    v[:-1] = np.where(alive, now.v[:, None], 0.0)
    used = now.rate_a * per_amp
    middle = after = np.empty(0)
    settled_v = 1.0
    for _ in range(SWEEPS):
        after = now.charge - np.cumsum(used, axis=0)
        better = np.clip(after + 0.5 * used, 0.0, 1.0)
        same = middle.size > 0 and np.abs(better - middle).max(initial=0.0) < CHARGE_SETTLED
        if same and settled_v == SETTLED_V:
            break
        middle = better
        part = replace(part, charge=middle)
        siemens, emf_v = pack_sources(network, part)
        ready = replace(ready, pack_siemens=siemens, emf_v=emf_v)
        settled_v = max(SETTLED_V, 1e-3 * settled_v)
        v, settled = newton(ends, ready, shunts(alive), v, True, settled_v)
        across = v[network.end[packs]] - v[network.start[packs]]
        used = (siemens * (emf_v - across)).T * per_amp
    now.rate_a = (used / per_amp).mean(axis=0)
    solution = finished(network, part, ready, alive, (v, settled))
    return solution, np.clip(after, 0.0, 1.0), part


def _first_trip(solution: Solution, part: Cases, step_s: Floats) -> tuple[int, int] | None:
    """Element and step of the first fuse or limiter that has carried too much for long enough."""
    over = overloaded(solution, part)
    found: list[tuple[int, int]] = []
    for at in np.flatnonzero(over.any(axis=0)):
        element = solution.network.elements[at]
        assert isinstance(element, Fuse | Limiter)
        lasting = 0.0
        for step, is_over in enumerate(over[:, at].tolist()):
            lasting = lasting + step_s[step] if is_over else 0.0
            if is_over and lasting >= (element.opens_after_s or 0.0) - 1e-9:
                found.append((step, int(at)))
                break
    if not found:
        return None
    first_step, first_at = min(found)
    return first_at, first_step


def _stretch(now: _UnderWay, profile: Profile, begin: int, end: int) -> tuple[Solution, Floats]:
    """Fly some steps; stop where something opens, so that fewer may be returned than asked for."""
    closed = profile.closed
    part = replace(
        now.given,
        load_a=profile.load_a[begin:end],
        closed=closed[begin:end] if len(closed) > 1 else closed,
    )
    step_s = profile.step_s[begin:end]
    solution, ends, part = _run_down(now, part, step_s)
    trip = _first_trip(solution, part, step_s)
    if trip is not None:
        at, step = trip
        solution, ends = solution.rows(slice(0, step + 1)), ends[: step + 1]
        opened = now.given.opened.copy()
        opened[:, at] = True
        now.given = replace(now.given, opened=opened)
        when = float(profile.step_s[: begin + step + 1].sum())
        now.tripped.append((now.network.elements[at].id, when))
    now.charge, now.v = ends[-1], solution.node_v[-1]
    return solution, ends


def fly(
    network: Network,
    profile: Profile,
    given: Cases | None = None,
    happens: Sequence[Happens] = (),
) -> Flight:
    """Fly a profile: solve every step with the charge that the steps before it have left.

    All steps of a stretch are solved at once with a guessed charge, which their currents correct,
    until it stays (waveform relaxation). Steps follow the rule of the middle: voltages and currents
    are those of the middle of the step. A step that overloads a fuse or limiter for long enough is
    the last before it opens; what opens faster than a step does so at its end. An empty pack gives
    the voltage at the foot of its curve.

    Parameters: `network`; `profile`; `given`, one case that says what is so from the start (charge,
    failures, resistances); `happens`, failures from a moment on.

    Returns `Flight`.

    >>> from hardstand.engines.power.network.elements import Load, Pack
    >>> from hardstand.engines.power.network.network import network as make
    >>> from hardstand.engines.power.network.profile import Phase, of_phases
    >>> one = make([
    ...     Pack(id="E01", start="0", end="a", cells=2, capacity_mah=3600, resistance_mohm=14,
    ...          curve_charge=(0, 1), curve_v=(3.0, 4.2)),
    ...     Load(id="servos", start="a", end="0", draw_a=2.3),
    ... ])
    >>> fly(one, of_phases(one, [Phase("flight", 720, {})])).used_mah.round(6).tolist()
    [460.0]

    Source: E. Lelarasmee, A. E. Ruehli and A. L. Sangiovanni-Vincentelli, The Waveform Relaxation
    Method, IEEE Transactions CAD 1 (1982) 131 to 145; from memory.
    """
    given = cases(network) if given is None else given
    now = _UnderWay(network, given, given.charge[0], np.zeros(len(network.packs)), None, [])
    edges = np.concatenate([[0.0], np.cumsum(profile.step_s)])
    when = sorted(happens, key=lambda one: one.at_s)
    pieces: list[Solution] = []
    charges = [now.charge[None]]
    begin, total = 0, len(profile.step_s)
    while begin < total:
        while when and when[0].at_s <= edges[begin] + 1e-9:
            failure = when.pop(0).failure
            flags = getattr(now.given, FIELD[failure.kind]).copy()
            flags[:, network.element_at[failure.element]] = True
            now.given = replace(now.given, **{FIELD[failure.kind]: flags})
        end = min(total, begin + CHUNK)
        if when:
            end = min(end, max(begin + 1, int(np.searchsorted(edges, when[0].at_s - 1e-9))))
        solution, ends = _stretch(now, profile, begin, end)
        pieces.append(solution)
        charges.append(ends)
        begin += len(ends)
    charge = np.concatenate(charges)
    capacity = np.array([pack.capacity_mah for pack in network.packs])
    return Flight(
        profile, joined(pieces), charge, (charge[0] - charge[-1]) * capacity, tuple(now.tripped)
    )
