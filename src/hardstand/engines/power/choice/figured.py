"""The figures of the choice: how warm each lead's copper is, and what is lost on the way to units."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.harness.model import Feed
from hardstand.engines.power.choice.case import Case
from hardstand.engines.power.choice.choose import Warming, warm_degc
from hardstand.engines.power.defaults import COPPER, INSIDE, STILL_AIR
from hardstand.figures import FigureSet
from hardstand.standards.wire_resistance import RESISTIVITY

Floats = NDArray[np.float64]


def unit_feeds(case: Case) -> dict[str, Feed]:
    """The ways over leads whose metal is known to what is no servo, by the domain that they end at."""
    at = {lead: row for row, lead in enumerate(case.leads)}
    servos = {one.leads for one in case.power.strands}
    return {
        feed.target: feed
        for feed in case.feeds
        if feed.leads not in servos
        and all(np.isfinite(case.area_mm2[at[one]]) for one in feed.leads if one in at)
    }


def figures_of(
    case: Case, these: Warming, feeds: Mapping[str, Feed], slopes: Floats
) -> FigureSet:
    """`power.wire-warmth@LEAD` for leads whose metal is known, `power.feed-drop@DOMAIN` for `feeds`.

    `slopes` are the relative ones of the leads' currents by the inputs of the supply's figures.
    """
    inputs = (*case.supply.figures.inputs, INSIDE, STILL_AIR, COPPER)
    known = np.flatnonzero(np.isfinite(case.area_mm2))
    warm = warm_degc(these, case.area_mm2)[known]
    rise = warm - INSIDE.value
    heated = np.zeros((len(known), len(inputs)))
    heated[:, : slopes.shape[1]] = 2.0 * rise[:, None] * slopes[known]
    heated[:, -3], heated[:, -2] = 1.0, -rise
    drops, dropped = np.zeros(len(feeds)), np.zeros((len(feeds), len(inputs)))
    at = {lead: row for row, lead in enumerate(case.leads)}
    for row, feed in enumerate(feeds.values()):
        rows = [at[one] for one in feed.leads if one in at]
        lost = (2e-3 * RESISTIVITY * case.length_mm[rows] * case.currents.worst_a[rows]
                / case.area_mm2[rows])  # fmt: skip
        drops[row] = lost.sum()
        dropped[row, : slopes.shape[1]] = lost @ slopes[rows]
        dropped[row, -1] = drops[row]
    return FigureSet(
        (*(f"power.wire-warmth@{case.leads[one]}" for one in known),
         *(f"power.feed-drop@{domain}" for domain in feeds)),
        np.concatenate([warm, drops]), ("degc",) * len(known) + ("v",) * len(feeds), inputs,
        np.concatenate([heated, dropped]),
        labels=(*(f"copper of {case.leads[one]} at its greatest lasting current" for one in known),
                *(f"drop in {', '.join(one.leads)} at the worst moment" for one in feeds.values())),
        method="greatest currents of moments and failures; heat of the bundle against still air",
    )  # fmt: skip
