"""The neutral point of wing, tail and body, with what is not known about it."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from hardstand.engines.balance.body_flow import BodyMoment
from hardstand.engines.balance.lattice import solve_lattice
from hardstand.engines.balance.lattice_model import Lattice
from hardstand.engines.balance.lattice_strips import Mesh, Surface
from hardstand.engines.balance.neutral_point_model import NeutralPoint, Tail
from hardstand.engines.balance.panel import Panel, carried_to_centreline
from hardstand.engines.balance.planform import Planform, planform


def _place_pct(
    flow: Lattice, reference: Planform, efficiency: float, body_mm3: float
) -> tuple[float, float, float]:
    """Return the neutral point with body, the one without, and that of the wing, % MAC."""
    weight = np.array([1.0, efficiency])[: len(flow.lift_mm2)]
    lift = float(weight @ flow.lift_mm2)
    moment = float(weight @ flow.moment_mm3)
    stations = (-(moment + body_mm3) / lift, -moment / lift, -flow.moment_mm3[0] / flow.lift_mm2[0])
    whole, bare, wing = (100.0 * reference.fraction_at(float(station)) for station in stations)
    return whole, bare, wing


def neutral_point(
    wing: Surface,
    tail: Tail | None = None,
    body: BodyMoment | None = None,
    mesh: Mesh | None = None,
    mach: float = 0.0,
) -> NeutralPoint:
    """Put wing, tail and body together to the stick-fixed neutral point.

    The body between the tail's halves lifts neither as fully as a tail carried to the centreline
    nor as little as exposed halves with a free inner edge. Both are solved by lattice, with the
    wing's downwash on each, and the truth is taken as equally likely anywhere between. The body's
    moment shifts the point by -M/(lift slope x area). The wing is taken as drawn in `wing`: give
    it from the centreline.

    Validity: as `lattice.solve_lattice` and `fuselage.body_moment_mm3`; controls held; power off.
    Jet inflow, exhaust entrainment and flexible parts are not in it: a two-speed trim in flight
    decides.

    Parameters: `wing` panels; `tail`; `body` moment slope (see `body_flow.body_moment`); `mesh` of
    the lattice; `mach`.

    Returns `NeutralPoint`.

    Example (wing alone: near the quarter chord, and no range):

    >>> from hardstand.engines.balance.panel import Section
    >>> alone = neutral_point([Panel(Section(0, 0, 0, 300), Section(0, 1000, 0, 300))])
    >>> round(alone.value_pct), alone.u_pct
    (24, 0.0)

    Source: the two bounds are common practice, no source; the moment balance is B. Etkin and L. D.
    Reid, Dynamics of Flight: Stability and Control, chapter 2 (from memory).
    """
    tail = tail or Tail()
    moment, moment_u = (body.value_mm3, body.u_mm3) if body else (0.0, 0.0)
    reference = planform(wing)
    drawn: Sequence[tuple[Panel, ...]] = (carried_to_centreline(tail.panels), tail.panels)
    if drawn[0] == drawn[1]:
        flow = solve_lattice([wing, tail.panels] if tail.panels else [wing], mesh, mach)
        flows = (flow, flow)
    else:
        carried, exposed = (solve_lattice([wing, panels], mesh, mach) for panels in drawn)
        flows = (carried, exposed)

    def places(efficiency: float) -> tuple[float, ...]:
        """Return with body (two ways), and the means of bare and wing places, % MAC."""
        both = np.array([_place_pct(flow, reference, efficiency, moment) for flow in flows])
        return (*both[:, 0].tolist(), *both[:, 1:].mean(axis=0).tolist())

    step = 0.01
    first, second, bare, wing_pct = places(tail.efficiency)
    raised = sum(places(tail.efficiency + step)[:2])
    lowered = sum(places(tail.efficiency - step)[:2])
    per_efficiency = (raised - lowered) / (4.0 * step)
    slopes = [
        float(flow.lift_mm2[0] + tail.efficiency * flow.lift_mm2[1:].sum()) / reference.area_mm2
        for flow in flows
    ]
    volume = 0.5 * sum(slopes) * reference.area_mm2 * reference.mac_mm
    body_u = 100.0 * moment_u / volume
    return NeutralPoint(
        reference=reference,
        lower_pct=min(first, second),
        upper_pct=max(first, second),
        normal_u_pct=math.hypot(body_u, per_efficiency * tail.efficiency_u),
        wing_pct=wing_pct,
        tail_pct=bare - wing_pct,
        body_pct=0.5 * (first + second) - bare,
        body_u_pct=body_u,
        per_efficiency_pct=per_efficiency,
        lift_slopes=(slopes[0], slopes[1]),
        flows=flows,
    )
