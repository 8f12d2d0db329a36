from __future__ import annotations

import pytest

from hardstand.engines.balance.deciding import what_decides
from hardstand.engines.balance.model import Headline, Trade
from tests.aeroplanes import SMALL, WEIGHED, assessed, of_code, swapped

HEAD: Headline = assessed().results["balance.headline"]
WEIGHED_HEAD: Headline = assessed(SMALL, WEIGHED.format(nose=1085, left=3935, right=3925)).results[
    "balance.headline"
]


def trade(whole: float | None, *singles: float) -> Trade:
    """A trade in which the CG is known to 1.5 mm (u)."""
    return Trade(
        "empty", {}, tuple((f"mass.m{n}.mass_g", u) for n, u in enumerate(singles)), 1.5, (), whole
    )


@pytest.mark.parametrize(
    "whole, singles, margin, updated, says",
    [
        (
            1.0,
            (1.2,),
            2.1,
            False,
            "Weighed on three scales it would be known to ± 2.0 mm, which decides",
        ),
        (1.0, (0.9, 0.8), 1.7, False, "Measure mass.m1.mass_g anew: ± 1.6 mm, which decides"),
        (1.0, (1.2,), 2.1, True, "No single measurement decides that: move the CG"),
        (1.0, (1.2,), 0.5, False, "Weigh it on three scales first: ± 2.0 mm"),
        (None, (), 0.5, False, "No single measurement decides that: move the CG"),
    ],
)
def test_the_cheapest_that_decides_is_named(
    whole: float | None, singles: tuple[float, ...], margin: float, updated: bool, says: str
) -> None:
    """The whole aeroplane first where it was never weighed, else one entry, else none."""
    head = WEIGHED_HEAD if updated else HEAD
    assert head.updated is updated
    assert says in what_decides(trade(whole, *singles), head, margin)


def test_a_cg_near_its_edge_is_told_what_decides() -> None:
    """The finding of an undecided range names the margin and the measurement."""
    value = assessed().figure("balance.cg@empty").value
    text = swapped(SMALL, "cg_range_mm = [135, 175]", f"cg_range_mm = [100, {value + 2.0:.3f}]")
    (said,) = of_code(assessed(text), "balance.cg-range")
    assert "its edge is 2.0 mm away" in said.text
    assert "Weigh" in said.text
