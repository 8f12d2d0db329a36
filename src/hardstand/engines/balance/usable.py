"""Which weigh-ins say something: what is wrong with the others, in words."""

from __future__ import annotations

import numpy as np

from hardstand.asbuilt.value import PlacedLeg
from hardstand.asbuilt.value import WeighIn as Weighed
from hardstand.description.fuel import State
from hardstand.standards.units import show

APART_MM = 10.0  # scales nearer to one another than this along x tell no CG
FARTHEST_OFF = (
    2.0  # weighed over built up, or the other way round: more is a slip, not a difference
)


def leg_under(address: str) -> str | None:
    """The leg whose contact point an input's address names, or None.

    >>> leg_under("leg.nose-leg.contact_mm.x"), leg_under("reading.r1.at_mm.x")
    ('nose-leg', None)
    """
    kind, _, rest = address.partition(".")
    return rest.partition(".")[0] if kind == "leg" else None


def why_unusable(
    one: Weighed, state: State, legs: tuple[PlacedLeg, ...], built_g: float | None
) -> str | None:
    """What keeps a weigh-in from being used, or None.

    `built_g` is the sum of the parts in its state, None where that state weighs nothing.
    """
    if built_g is None:
        return "nothing is on board in its state"
    if one.weighing.method == "stand":
        return _why_not_on_stand(one, built_g)
    return _why_not_on_scales(one, state, legs, built_g)


def _why_not_on_scales(
    one: Weighed, state: State, legs: tuple[PlacedLeg, ...], built_g: float
) -> str | None:
    total_g = sum(reading.reading.value for reading in one.readings)
    if not built_g / FARTHEST_OFF < total_g < built_g * FARTHEST_OFF:
        return (
            f"its scales show {show(total_g, 'g')} together where the parts weigh "
            f"{show(built_g, 'g')}: a slipped digit, or another unit"
        )
    under = [leg for leg in (leg_under(reading.at[0].address) for reading in one.readings) if leg]
    if len(set(under)) < len(under):
        return "two of its scales stand under the same leg"
    if under and state.gear == "up":
        return "it stands on its wheels, but in its state the gear is up"
    off = {leg.id for leg in legs if leg.leg.item in state.without}
    if off & set(under):
        return f"{', '.join(sorted(off & set(under)))} is off in its state"
    station = [reading.at[0].value for reading in one.readings]
    if np.ptp(station) < APART_MM:
        return "its scales stand at one station"
    return None


def _why_not_on_stand(one: Weighed, built_g: float) -> str | None:
    row = one.weighing
    if not row.weight_g:
        return None
    if row.weight_x_mm is None or row.stand_x_mm is None:
        return "weight_x_mm, the station of the weight that levels it, is not stated"
    if row.weight_g * FARTHEST_OFF > built_g:
        return f"the weight that levels it, {show(row.weight_g, 'g')}, is half of what it weighs"
    ahead = row.weight_x_mm < row.stand_x_mm
    if (row.tips == "tail" and not ahead) or (row.tips == "nose" and ahead):
        side = "ahead of" if ahead else "behind"
        return f"it tips {row.tips} down, and a weight {side} the stand cannot level that"
    return None
