from __future__ import annotations

import pytest

from hardstand.engines.balance.model import Trade
from tests.aeroplanes import SMALL, WEIGHED, assessed, of_code, swapped, without_rows


def trade(text: str, measurements: str = "") -> Trade:
    """The trade of an aeroplane."""
    found: Trade = assessed(text, measurements).results["balance.trade"]
    return found


def test_the_first_entry_is_the_best_and_its_gain_is_real() -> None:
    """Entered with the tolerance of a careful measurement, the CG is known as well as promised."""
    (address, after), *rest = trade(SMALL).next_weighing
    assert address == "mass.body.at_mm.x"
    assert all(after <= other for _, other in rest)
    better = swapped(SMALL, "at_mm = [990, 0, 0]", "at_mm = [990, 0, 0]\nat_tol_mm = 1")
    assert assessed(better).figure("balance.cg@empty").u == pytest.approx(after, rel=1e-9)


def test_what_is_measured_already_is_left_alone() -> None:
    """A measured place is not proposed again."""
    row = '[[measurement]]\nid = "m"\naddress = "mass.body.at_mm"\nvalue = [990, 0, 0]\ndeclared = [990, 0, 0]\n'
    addresses = {one for one, _ in trade(SMALL, row).next_weighing}
    assert addresses
    assert "mass.body.at_mm.x" not in addresses


def test_weighing_the_whole_does_what_is_promised() -> None:
    """The uncertainty foretold is that of a weigh-in that agrees with the parts."""
    foretold = trade(SMALL).whole_weighed_u_mm
    assert foretold is not None
    found = assessed()
    x = found.figure("balance.cg-x@empty").value
    nose = 8900.0 * (1030.0 - x) / 630.0
    weighed = WEIGHED.format(nose=nose, left=(8900.0 - nose) / 2, right=(8900.0 - nose) / 2)
    assert foretold == pytest.approx(
        assessed(SMALL, weighed).figure("balance.cg@empty").u, rel=0.01
    )
    (said,) = of_code(found, "balance.not-weighed")
    assert f"{2.0 * foretold:.1f} mm" in said.text
    assert "`hardstand weigh`" in said.text


def test_without_three_wheels_nothing_is_promised() -> None:
    """No legs, or a CG behind the main wheels: no forecast, and the sentence goes without."""
    for text in (
        without_rows(SMALL, "leg"),
        SMALL.replace("contact_mm = [1030", "contact_mm = [900"),
    ):
        assert trade(text).whole_weighed_u_mm is None
        (said,) = of_code(assessed(text), "balance.not-weighed")
        assert said.text.endswith("`hardstand weigh`.")


def test_the_mark_is_part_of_what_is_not_known() -> None:
    """The CG is judged behind its mark; without one, its station stands in."""
    found = trade(SMALL)
    assert found.u_now_mm == pytest.approx(assessed().figure("balance.cg@empty").u)
    vague = swapped(SMALL, "at_mm = [800, 100, 0]", "at_mm = [800, 100, 0]\nat_tol_mm = 8")
    assert trade(vague).next_weighing[0][0] == "cg_mark.at_mm.x"
    assert found.whole_weighed_u_mm is not None
    assert (trade(vague).whole_weighed_u_mm or 0.0) > 4.0 > found.whole_weighed_u_mm
