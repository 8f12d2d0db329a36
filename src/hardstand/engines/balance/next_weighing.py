"""What to weigh or measure next, so that the CG is known better."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hardstand.asbuilt.value import PlacedLeg, ScaleReading, WeighIn
from hardstand.description.items import Weighing
from hardstand.engines.balance.fitted import solved
from hardstand.engines.balance.model import Floats, Headline
from hardstand.engines.balance.on_scales import on_scales
from hardstand.engines.balance.on_wheels import three_legs
from hardstand.engines.balance.uncertainty import next_measurement
from hardstand.engines.balance.wheels import wheel_figures
from hardstand.figures import Input
from hardstand.standards.tolerances import LEVEL, SCALE

ACHIEVABLE = {"g": 1.0, "mm": 0.5}  # standard uncertainty of one careful weighing or measuring
NEXT = 5


def judged_figure(head: Headline, row: int) -> str:
    """The address of a state's CG as it is judged: behind the mark, or its station without one."""
    state = head.state_ids[row]
    return f"balance.cg-x@{state}" if head.aft_mm is None else f"balance.cg@{state}"


def next_single(head: Headline, row: int) -> tuple[tuple[tuple[str, float], ...], float]:
    """The single entries worth measuring anew: (address, u of the CG after it), and its u now, mm.

    Best first; the CG as it is judged, the mark's own uncertainty included. What has been measured
    already is left alone. After a weigh-in the gain is a lower bound: weighed again with better
    parts, the aeroplane would tell a little more.
    """
    figures = head.figures
    can = np.array(
        [
            ACHIEVABLE.get(one.unit, np.inf) if one.kind != "measured" else np.inf
            for one in figures.inputs
        ]
    )
    slope = figures.sensitivity[figures.addresses.index(judged_figure(head, row))]
    after = next_measurement(slope, figures.input_u, np.minimum(can, figures.input_u))
    best = tuple(
        (figures.inputs[i].address, float(after.u_after[i]))
        for i in after.order[:NEXT]
        if after.variance_removed[i] > 0.0
    )
    return best, after.u_now


def whole_weighed_u_mm(head: Headline, row: int, legs: Sequence[PlacedLeg]) -> float | None:
    """Standard uncertainty of a state's CG once it is weighed on three scales as usual, mm.

    As it is judged, behind the mark. Level, with the usual tolerances of scales and level and the
    legs' own contact points. None where it does not stand on a nose wheel and two mains.
    """
    three = three_legs(legs)
    if three is None:
        return None
    values = np.array([head.mass_g[row], *head.cg_mm[row]])
    contact = np.array([[one.value for one in leg.contact] for leg in three])
    try:
        load_g = values[0] * wheel_figures(values[1:], contact).load_share[0]
    except ValueError:
        return None
    if np.any(load_g < 0.0):
        return None
    seen = on_scales(_as_usual(three, load_g, head.state_ids[row]), tuple(legs), values, row)
    u = np.array([one.u for one in head.inputs])
    _, slope = seen.against(values, head.slope[row])
    rows, wanted = slope * u, head.slope[row, 1] * u
    cross = rows @ wanted
    spread = rows @ rows.T + seen.covariance
    left = float(cross @ solved(spread, cross))
    of_mark = head.figures.figure(judged_figure(head, row)).u ** 2 - float(wanted @ wanted)
    return float(np.sqrt(max(float(wanted @ wanted) - left, 0.0) + max(of_mark, 0.0)))


def _as_usual(three: Sequence[PlacedLeg], load_g: Floats, state_id: str) -> WeighIn:
    """A weigh-in that shows those loads under the legs."""
    readings = tuple(
        ScaleReading(
            leg.id,
            leg.contact,
            Input(f"reading.{leg.id}.reading_g", float(load), "g", SCALE.fixed / 2.0),
            0.0,
        )
        for leg, load in zip(three, load_g, strict=True)
    )
    pitch = Input("weighing.next.pitch_deg", 0.0, "deg", LEVEL.fixed / 2.0)
    return WeighIn("next", Weighing(id="next", state=state_id), pitch, readings)
