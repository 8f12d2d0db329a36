"""The smallest standard size that is thick enough for all that is asked of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.choice.sizes import Ladder, outside_mm, strands_mohm_per_m
from hardstand.engines.power.choice.warmth import conductor_degc, heat_w_per_m
from hardstand.standards.wire_current import STILL_AIR_W_M2_K
from hardstand.standards.wire_resistance import RESISTIVITY

Floats = NDArray[np.float64]
Index = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Warming:
    """What L leads are warmed by: own current (A) and wires, and heat (W/m) and squares (mm2) around.

    `others_w_m` and `others_mm2` are of the wires that a lead is tied to, at 20 degrees C; both 0
    where it runs alone. `u_current` and `u_air` are relative standard uncertainties of the current
    and of the heat given off, `u_degc` that of the air.
    """

    current_a: Floats
    conductors: Floats
    others_w_m: Floats
    others_mm2: Floats
    ambient_degc: float
    u_current: Floats
    u_air: float = 0.0
    u_degc: float = 0.0


def least_mm2(volt_a_mm: Floats, most_v: Floats) -> Floats:
    """Metal of each conductor, mm2, with which a loop drops no more than `most_v`.

    Assumptions and validity: solid copper at 20 degrees C, as the network has it. Parameters, of one
    shape: `volt_a_mm`, current times length of the lead, A mm; `most_v`, V. No current asks for none.

    >>> least_mm2(np.array([10.0 * 1000.0]), np.array([0.5])).round(3).tolist()  # 10 A over 1 m
    [0.69]

    Source: IEC 60028; two conductors in series.
    """
    per_v = np.where(most_v > 0.0, most_v, np.nan)
    found = 2e-3 * RESISTIVITY * volt_a_mm / per_v
    return np.asarray(np.where(volt_a_mm > 0.0, np.where(most_v > 0.0, found, np.inf), 0.0))


def warm_degc(these: Warming, area_mm2: Floats, beyond: float = 0.0) -> Floats:
    """Temperature of each lead's copper at areas (L, ...), degrees C: the warmer of alone and tied.

    `beyond` adds so many standard uncertainties.
    """
    more = (slice(None), *(None,) * (area_mm2.ndim - 1))
    heat = heat_w_per_m(these.current_a[more], strands_mohm_per_m(area_mm2))
    squares = these.conductors[more] * outside_mm(area_mm2) ** 2
    found = [
        conductor_degc(heat + others_w, squares + others_mm2, these.ambient_degc, STILL_AIR_W_M2_K)
        for others_w, others_mm2 in ((0.0, 0.0), (these.others_w_m[more], these.others_mm2[more]))
    ]
    warm = np.maximum(*found)
    if beyond:
        share = np.hypot(2.0 * these.u_current, these.u_air)[more]
        warm = warm + beyond * np.hypot((warm - these.ambient_degc) * share, these.u_degc)
    return np.asarray(warm)


def chosen(
    ladder: Ladder, least: Mapping[str, Floats], these: Warming, most_degc: float
) -> tuple[Index, tuple[str, ...]]:
    """The place of the smallest size in a ladder (its length where none does), and what asks for it.

    Parameters: `least`, by what asks for it: the metal that each lead needs at least, mm2, (L);
    `these` and `most_degc`, what may warm the copper to at most, with two standard uncertainties.
    Where several ask for the same size the first of them is named, warmth last but for "size".
    """
    sizes = len(ladder.area_mm2)
    # a hair's breadth, so that a wire is as thick as itself
    places = {why: np.searchsorted(ladder.area_mm2, area * (1.0 - 1e-9)) for why, area in least.items()}
    table = np.broadcast_to(ladder.area_mm2, (len(these.current_a), sizes))
    cool = warm_degc(these, table, 2.0) <= most_degc
    places["warmth"] = np.where(cool.any(axis=1), cool.argmax(axis=1), sizes)
    every = np.array(list(places.values()))
    at, why = every.max(axis=0), list(places)
    binds = tuple("size" if place == 0 else why[int(column.argmax())]
                  for place, column in zip(at.tolist(), every.T, strict=True))  # fmt: skip
    return at, binds
