from __future__ import annotations

import pytest

from hardstand.engines.balance.model import Ballast
from tests.aeroplanes import SMALL, assessed, swapped

LEAD = '[[mass]]\nid = "lead"\nmass_g = 100\nat_mm = [950, 0, 0]\nzone = "ballast"\n'


def test_the_share_is_of_the_lightest_state() -> None:
    """100 g in 9000 g; nothing without ballast."""
    found: Ballast = assessed(SMALL + LEAD).results["balance.ballast"]
    assert found.share_pct == pytest.approx(100.0 * 100.0 / 9000.0)
    assert (found.total_g, found.pieces) == (100.0, ("lead",))
    assert assessed().results["balance.ballast"] is None


@pytest.mark.parametrize("address, old", [("mass.lead.mass_g", "mass_g = 100\nat_mm = [950"),
                                          ("mass.body.mass_g", "mass_g = 6000\nat_mm")])  # fmt: skip
def test_slopes_are_differences(address: str, old: str) -> None:
    """More lead is more of a share, more of anything else less."""
    figure = "balance.ballast-share@aeroplane"
    slope = dict(assessed(SMALL + LEAD).figure(figure).parents)[address]
    value = float(old.split()[2])
    ends = [
        assessed(swapped(SMALL + LEAD, old, old.replace(f"{value:g}", f"{value + by:g}")))
        .figure(figure)
        .value
        for by in (-5, 5)
    ]
    assert slope == pytest.approx((ends[1] - ends[0]) / 10.0, rel=1e-2)
