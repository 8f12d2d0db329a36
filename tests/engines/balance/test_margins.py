from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.model import Margins, Stability
from tests.aeroplanes import SMALL, assessed, swapped


def test_the_margin_is_the_distance_between_the_two_points() -> None:
    """Per cent of the MAC of what lies between CG and neutral point, in every state."""
    found = assessed()
    margins: Margins = found.results["balance.margins"]
    point, mac = (found.figure(f"balance.{one}@wing").value for one in ("neutral-point", "mac"))
    for state, margin in zip(margins.state_ids, margins.margin_pct, strict=True):
        cg = found.figure(f"balance.cg-x@{state}").value
        assert margin == pytest.approx(100.0 * (point - cg) / mac)


def test_the_wing_in_another_place_moves_the_margin() -> None:
    """Its slope by the wing's root station is that of a difference."""
    found = assessed()
    slope = dict(found.figure("balance.static-margin@full").parents)["panel.wing.root_mm.x"]
    ends = []
    for x in (748.0, 752.0):
        other = assessed(swapped(SMALL, "root_mm = [750, 0, 0]", f"root_mm = [{x}, 0, 0]"))
        # the neutral point in % MAC is taken as fixed: only what the planform does is compared
        ends.append(-other.figure("balance.cg-mac@full").value)
    assert slope == pytest.approx((ends[1] - ends[0]) / 4.0, rel=1e-3)


def test_the_chance_agrees_with_sampling() -> None:
    """Neutral point uniform and normal, CG normal: 200,000 draws give the stated chance."""
    found = assessed()
    margins: Margins = found.results["balance.margins"]
    stability: Stability = found.results["balance.stability"]
    point = stability.point
    assert point is not None
    random = np.random.default_rng(11)
    count = 200_000
    places = random.uniform(point.lower_pct, point.upper_pct, count)
    places += random.normal(0.0, point.normal_u_pct, count)
    row = margins.state_ids.index("full")
    cg = found.figure("balance.cg-mac@full")
    drawn = places - random.normal(cg.value, cg.u, count)
    chance = float(np.mean(drawn < margins.limit_pct))
    assert margins.chance[row] == pytest.approx(
        chance, abs=4.0 * np.sqrt(chance * (1 - chance) / count) + 1e-5
    )
