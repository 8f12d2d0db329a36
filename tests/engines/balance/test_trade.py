from __future__ import annotations

import pytest

from hardstand.engines.balance.model import Trade, WayOut
from hardstand.engines.balance.trade import front_of
from tests.aeroplanes import SMALL, assessed, swapped


def trade(text: str = SMALL) -> Trade:
    """The trade of an aeroplane."""
    found: Trade = assessed(text).results["balance.trade"]
    return found


def test_ten_grams_more_move_the_cg_as_said() -> None:
    """10 g on a piece, entered, against the sensitivity: alike but for the 10 g in the total."""
    said = trade().per_10g_mm["nose"]
    before, after = (
        assessed(text).figure("balance.cg-x@empty").value
        for text in (SMALL, swapped(SMALL, "mass_g = 1000", "mass_g = 1010"))
    )
    assert said == pytest.approx(after - before, rel=2e-3)
    assert said < 0.0 < trade().per_10g_mm["tail"]


def way(added: float, distance: float, charge: float = 0.0, *, reaches: bool = True) -> WayOut:
    """A way out with its costs."""
    return WayOut("slide", "", (), 0.0, added, reaches, reaches, charge, distance)


def test_the_front_holds_what_nothing_beats() -> None:
    """Lighter but farther off, nearer but heavier: both stay; worse in everything goes."""
    ways = [way(0.0, 4.0), way(50.0, 0.0), way(60.0, 1.0), way(0.0, 0.0, reaches=False)]
    assert front_of(ways) == (0, 1)
    assert front_of(()) == ()
    assert front_of([way(5.0, 9.0, reaches=False)]) == (0,)


def test_without_a_mark_there_are_sensitivities_but_no_ways() -> None:
    """The first state stands in for a judged one."""
    text = SMALL[: SMALL.index("cg_range_mm")] + SMALL[SMALL.index("[ground]") :]
    found = trade(text)
    assert found.state_id is None
    assert found.ways == ()
    assert found.per_10g_mm["nose"] < 0.0
