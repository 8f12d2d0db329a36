"""What to weigh or measure next, so that the CG is known better."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hardstand.asbuilt.value import PlacedLeg
from hardstand.engines.balance.fitted import solved
from hardstand.engines.balance.model import Headline
from hardstand.engines.balance.on_wheels import three_legs
from hardstand.engines.balance.uncertainty import next_measurement
from hardstand.engines.balance.weighing import WeighingErrors, weigh_in
from hardstand.engines.balance.wheels import wheel_figures
from hardstand.standards.tolerances import CONTACT, LEVEL, SCALE

ACHIEVABLE = {"g": 1.0, "mm": 0.5}  # standard uncertainty of one careful weighing or measuring
NEXT = 5


def next_single(head: Headline, row: int) -> tuple[tuple[tuple[str, float], ...], float]:
    """The single entries worth measuring anew: (address, u of the CG after it), and its u now, mm.

    Best first. What has been measured already is left alone. After a weigh-in the gain is a lower
    bound: weighed again with better parts, the aeroplane would tell a little more.
    """
    u = np.array([one.u for one in head.inputs])
    can = np.array(
        [
            ACHIEVABLE.get(one.unit, np.inf) if one.kind != "measured" else np.inf
            for one in head.inputs
        ]
    )
    after = next_measurement(head.slope[row, 1], u, np.minimum(can, u))
    best = tuple(
        (head.inputs[i].address, float(after.u_after[i]))
        for i in after.order[:NEXT]
        if after.variance_removed[i] > 0.0
    )
    return best, after.u_now


def whole_weighed_u_mm(head: Headline, row: int, legs: Sequence[PlacedLeg]) -> float | None:
    """Standard uncertainty of a state's CG once it is weighed on three scales as usual, mm.

    None where it does not stand on a nose wheel and two mains.
    """
    three = three_legs(legs)
    if three is None:
        return None
    contact = np.array([[one.value for one in leg.contact] for leg in three])
    mass, cg = float(head.mass_g[row]), head.cg_mm[row]
    half = [default.fixed / 2.0 for default in (SCALE, CONTACT, LEVEL)]
    errors = WeighingErrors(half[0], half[1], 0.0, half[2])
    try:
        share = wheel_figures(cg, contact).load_share[0]
        found = weigh_in(mass * share, contact, float(cg[2]), errors)
    except ValueError:
        return None
    u = np.array([one.u for one in head.inputs])
    rows = head.slope[row, :2] * u
    rows[1] -= found.by_height[0] * head.slope[row, 3] * u
    wanted = head.slope[row, 1] * u
    cross = rows @ wanted
    spread = rows @ rows.T + found.covariance[:2, :2]
    return float(np.sqrt(max(wanted @ wanted - cross @ solved(spread, cross), 0.0)))
