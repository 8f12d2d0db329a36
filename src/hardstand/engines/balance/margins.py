"""Node: static margin of every state, and the chance that it is under its limit."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.engines.balance.bounds import low_of
from hardstand.engines.balance.headline import of_mac
from hardstand.engines.balance.model import Headline, Margins, Stability
from hardstand.engines.balance.stability_figures import own_u_pct
from hardstand.engines.balance.static_margin import chance_margin_below, static_margin_pct
from hardstand.figures import FigureSet

LEAST_PCT = -1e6  # stands for a limit without a lower end


def margins(slices: Any, earlier: Any) -> Margins | None:
    """Static margin = (neutral point - CG) / MAC; None without a neutral point or a CG.

    The neutral point is uniform between its bounds with a normal spread on top, the CG in % MAC
    normal: the chance is exact for that, not sampled.
    """
    head: Headline | None = earlier["balance.headline"]
    stability: Stability | None = earlier["balance.stability"]
    if head is None or stability is None or stability.point is None or stability.efficiency is None:
        return None
    point = stability.point
    _, slope = of_mac(head.cg_mm[:, 0], head.slope[:, 1], stability)
    margin = static_margin_pct(point, head.cg_mm[:, 0])
    inputs = (*head.inputs, *stability.wing_inputs)
    u_cg = np.linalg.norm(slope * np.array([one.u for one in inputs]), axis=1)
    limit = low_of(slices.limits["balance.static-margin"])
    u_cg_mm = u_cg * stability.wing.mac_mm / 100.0
    chance = chance_margin_below(point, head.cg_mm[:, 0], u_cg_mm, max(limit, LEAST_PCT))
    by_efficiency = np.full((len(margin), 1), point.per_efficiency_pct)
    figures = FigureSet(
        tuple(f"balance.static-margin@{state}" for state in head.state_ids),
        margin,
        ("pct",) * len(margin),
        (*inputs, stability.efficiency),
        np.hstack([-slope, by_efficiency]),
        np.full(len(margin), own_u_pct(point, stability.efficiency)),
        tuple(f"static margin, {state}" for state in head.state_ids),
        {
            f"balance.static-margin@{state}": (
                "balance.neutral-point-mac@wing",
                f"balance.cg-mac@{state}",
            )
            for state in head.state_ids
        },
        "neutral point less CG, of the MAC",
    )
    return Margins(head.state_ids, margin, figures.u, chance, limit, figures)
