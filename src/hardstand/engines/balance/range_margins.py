"""Node: the static margin at both ends of the designer's range, to see whether the planform agrees."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.engines.balance.bounds import low_of
from hardstand.engines.balance.headline import of_mac
from hardstand.engines.balance.margins import LEAST_PCT
from hardstand.engines.balance.model import RangeMargins, Stability
from hardstand.engines.balance.stability_figures import own_u_pct
from hardstand.engines.balance.static_margin import chance_margin_below, static_margin_pct
from hardstand.figures import FigureSet


def range_margins(slices: Any, earlier: Any) -> RangeMargins | None:
    """Margins of a CG exactly at the ends; None without range, mark or neutral point."""
    stability: Stability | None = earlier["balance.stability"]
    ends, mark = slices.aeroplane.cg_range_mm, slices.cg_mark
    if stability is None or stability.point is None or stability.efficiency is None:
        return None
    if ends is None or mark is None:
        return None
    point = stability.point
    cg_mm = mark[0].value + np.array(ends)
    _, slope = of_mac(cg_mm, np.ones((2, 1)), stability)
    margin = static_margin_pct(point, cg_mm)
    inputs = (mark[0], *stability.wing_inputs, stability.efficiency)
    u_cg = np.linalg.norm(slope * np.array([one.u for one in inputs[:-1]]), axis=1)
    limit = max(low_of(slices.limits["balance.static-margin"]), LEAST_PCT)
    chance = chance_margin_below(point, cg_mm, u_cg * stability.wing.mac_mm / 100.0, limit)
    figures = FigureSet(
        ("balance.range-margin@forward", "balance.range-margin@aft"),
        margin,
        ("pct", "pct"),
        inputs,
        np.hstack([-slope, np.full((2, 1), point.per_efficiency_pct)]),
        np.full(2, own_u_pct(point, stability.efficiency)),
        tuple(f"static margin at the {end} end of the range" for end in ("forward", "aft")),
        {
            f"balance.range-margin@{end}": ("balance.neutral-point-mac@wing", "balance.mac@wing")
            for end in ("forward", "aft")
        },
        "neutral point less the end of the designer's range, of the MAC",
    )
    return RangeMargins(float(margin[0]), float(margin[1]), float(chance[1]), figures)
