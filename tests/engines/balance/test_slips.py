from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.balance.build_up import build_up, observed_weigh_in
from hardstand.engines.balance.slips import (
    fixed_slips,
    missing_item_slip,
    offset_slip,
    swapped_digits,
)

PRIOR = build_up(
    [172.0, 1378.0, 884.0], [[398, -44], [1668, 0], [1352, -455]], [3.0, 9.0, 6.0], [2.0, 2.0, 2.0]
)
SEEN = observed_weigh_in(PRIOR, 2434.0, 1460.0, -168.0, np.diag([25.0, 1.0, 0.3]))


@given(st.integers(1, 99_999))
def test_swapped_digits_differ_by_multiples_of_nine(mass_g: int) -> None:
    """Every swap differs from the entry, by a multiple of nine."""
    for other in swapped_digits(mass_g):
        assert other != mass_g
        assert (other - mass_g) % 9 == 0


def test_fixed_slips_move_the_residual_as_the_corrected_entry_would() -> None:
    """Taking an item out once more moves mass and moments by exactly what the item weighs there."""
    for slip in fixed_slips(PRIOR, SEEN):
        if slip.kind != "counted twice":
            continue
        mass = PRIOR.mass_g[slip.item]
        offset = PRIOR.at_mm[slip.item] - PRIOR.cg_mm
        assert slip.fixed == -mass
        assert slip.direction[:, 0] == pytest.approx([-mass, *(-mass * offset)])


def test_ounces_and_grams_are_a_factor_of_28_35_apart() -> None:
    """The true mass behind either slip is the entry times or divided by that factor."""
    sizes = {(slip.kind, slip.item): slip.fixed for slip in fixed_slips(PRIOR, SEEN)}
    heavier, lighter = sizes["ounces entered as grams", 0], sizes["grams entered as ounces", 1]
    assert heavier is not None
    assert lighter is not None
    assert (172.0 + heavier) / 172.0 == pytest.approx(28.35, abs=0.001)
    assert 1378.0 / (1378.0 + lighter) == pytest.approx(28.35, abs=0.001)


def test_items_on_the_centreline_have_no_other_side() -> None:
    """Only items off the centreline may have been entered on the wrong side."""
    items = [x.item for x in fixed_slips(PRIOR, SEEN) if x.kind == "place on the other side"]
    assert items == [0, 2]


def test_a_tare_error_adds_its_size_to_every_weighing() -> None:
    """Three weighings with one tare error move the total by three times its size."""
    assert offset_slip(SEEN, [0, 1, 2], 2.0).direction[0, 0] == 3.0
    assert missing_item_slip(PRIOR, SEEN).direction.shape == (3, 3)
