"""A weigh-in on a two-point stand: as a row against the build-up where it levels, else as a bound."""

from __future__ import annotations

from math import erfc, sqrt
from typing import Literal

import numpy as np

from hardstand.asbuilt.value import WeighIn as Weighed
from hardstand.engines.balance.balance_stand import StandErrors, bounds_from_tipping, levelled
from hardstand.engines.balance.model import Floats, WeighedIn
from hardstand.engines.balance.seen import Seen
from hardstand.figures import Input

STAND_U_MM = 1.0  # a stand's station by ruler: common practice, no source
WEIGHT_U_G = 2.0
WEIGHT_U_MM = 2.0


def levels(one: Weighed) -> bool:
    """Whether a stand gives the CG itself: it levels, or a weight levels it."""
    return one.weighing.tips == "level" or bool(one.weighing.weight_g)


def on_stand(one: Weighed, values: Floats, row: int) -> Seen:
    """The CG station of an aeroplane that a stand levels, by itself or with a weight.

    Held level, so that the height of the CG does not count. Parameters: values (4,), mass and CG of
    the state as built up; row, its number. Assumes `levels` and what `usable` lets through.
    """
    address = f"weighing.{one.id}"
    stand = _read(
        f"{address}.stand_x_mm", one.weighing.stand_x_mm, "mm", STAND_U_MM, "by ruler, 2 mm"
    )
    weight = _read(
        f"{address}.weight_g", one.weighing.weight_g, "g", WEIGHT_U_G, "kitchen scale, 4 g"
    )
    at = _read(
        f"{address}.weight_x_mm", one.weighing.weight_x_mm, "mm", WEIGHT_U_MM, "by ruler, 4 mm"
    )
    station = at.value if weight.value else stand.value
    errors = StandErrors(STAND_U_MM, WEIGHT_U_G, WEIGHT_U_MM, 0.0)
    found = levelled(stand.value, weight.value, station, float(values[0]), errors)
    inputs, columns = [stand], [found.by_stand]
    if weight.value:
        inputs += [weight, at]
        columns += [found.by_weight_mm_per_g, found.by_weight_station]
    by_built = np.zeros((1, 4))
    by_built[0, 0] = found.by_mass_mm_per_g
    measured = np.array([found.x_mm])
    return Seen(
        one, row, (1,), measured, values.copy(), by_built, tuple(inputs), np.array([columns])
    )


def _read(address: str, value: float | None, unit: str, u: float, words: str) -> Input:
    return Input(address, value or 0.0, unit, u, "measured", address, f"class default: {words}")


def tipped(one: Weighed, values: Floats, u_x_mm: float) -> WeighedIn:
    """What a stand says on which the aeroplane only tipped: on which side of it the CG lies.

    Parameters: values (4,) of its state as built up, u_x_mm of the CG's station there. The chance
    is that of a CG as far on the wrong side as the build-up has it, 1 where it is on the right one.
    """
    row = one.weighing
    tips: Literal["nose", "tail"] = "nose" if row.tips == "nose" else "tail"
    stand_mm = row.stand_x_mm or 0.0
    bounds = bounds_from_tipping([stand_mm], [tips], STAND_U_MM)
    off = stand_mm - float(values[1])
    wrong_mm = min(off, 0.0) if tips == "nose" else max(off, 0.0)
    u_mm = float(np.hypot(u_x_mm, STAND_U_MM))
    return WeighedIn(
        one.id,
        row.state,
        "stand",
        float(values[0]),
        0.0,
        stand_mm,
        STAND_U_MM,
        None,
        None,
        0.0,
        0.0,
        wrong_mm,
        u_mm,
        1.0 if wrong_mm == 0.0 else 0.5 * erfc(abs(wrong_mm) / u_mm / sqrt(2.0)),
        low_mm=bounds.low_mm if np.isfinite(bounds.low_mm) else None,
        high_mm=bounds.high_mm if np.isfinite(bounds.high_mm) else None,
    )
