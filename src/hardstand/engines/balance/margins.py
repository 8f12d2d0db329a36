"""Node: static margin of every state, and the chance that it is under its limit."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.engines.balance.model import Headline, Margins, Stability
from hardstand.engines.balance.static_margin import chance_margin_below, static_margin_pct
from hardstand.figures import FigureSet


def margins(slices: Any, earlier: Any) -> Margins | None:
    """Static margin = (neutral point - CG) / MAC; None without a neutral point or a CG."""
    head: Headline | None = earlier["balance.headline"]
    stability: Stability | None = earlier["balance.stability"]
    if head is None or stability is None or stability.point is None or stability.efficiency is None:
        return None
    point = stability.point
    x_mm = head.cg_mm[:, 0]
    margin = static_margin_pct(point, x_mm)
    per_mm = 100.0 / stability.wing.mac_mm
    inputs = (*head.inputs, stability.efficiency)
    slope = np.hstack(
        [-per_mm * head.slope[:, 1], np.full((len(x_mm), 1), point.per_efficiency_pct)]
    )
    own = max(point.u_pct**2 - (point.per_efficiency_pct * stability.efficiency.u) ** 2, 0.0) ** 0.5
    figures = FigureSet(
        tuple(f"balance.static-margin@{state}" for state in head.state_ids),
        margin,
        ("pct",) * len(margin),
        inputs,
        slope,
        np.full(len(margin), own),
        tuple(f"static margin, {state}" for state in head.state_ids),
        {
            f"balance.static-margin@{state}": (
                f"balance.cg-x@{state}",
                "balance.neutral-point@wing",
                "balance.mac@wing",
            )
            for state in head.state_ids
        },
        "neutral point less CG, of the MAC",
    )
    u_x = np.sqrt((head.slope[:, 1] ** 2) @ np.array([one.u for one in head.inputs]) ** 2)
    limit = slices.limits["balance.static-margin"].low or 0.0
    chance = chance_margin_below(point, x_mm, u_x, limit)
    return Margins(
        head.state_ids, margin, figures.u, np.asarray(chance, dtype=np.float64), limit, figures
    )
