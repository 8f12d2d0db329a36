from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.model import Inside, Stability
from tests.aeroplanes import SMALL, assessed, swapped, without_rows

NARROW = swapped(SMALL, "cg_range_mm = [135, 175]", "cg_range_mm = [153, 158]")


def inside(text: str) -> Inside | None:
    """The joint chance of an aeroplane."""
    found: Inside | None = assessed(text).results["balance.inside"]
    return found


@pytest.mark.parametrize("limit", [3.0, 12.0, 20.0])
def test_the_joint_chance_agrees_with_plain_sampling(limit: float) -> None:
    """All inputs drawn anew, every state looked at: the share of draws in which all is inside."""
    text = f'{NARROW}\n[[limit]]\nid = "balance.static-margin"\nlow = {limit}\nreason = "test"\n'
    found = assessed(text)
    stability: Stability = found.results["balance.stability"]
    point = stability.point
    assert point is not None
    random, count = np.random.default_rng(5), 40_000
    shown = found.set_of("balance.cg@empty")
    draws = random.standard_normal((count, len(shown.inputs))) * shown.input_u
    rows = [
        shown.addresses.index(f"balance.{one}") for one in ("cg-mac@full", "cg-mac@low", "cg@empty")
    ]
    values = shown.values[rows] + draws @ shown.sensitivity[rows].T
    place = random.uniform(point.lower_pct, point.upper_pct, count)
    place += random.normal(0.0, point.normal_u_pct, count)
    good = (
        (place - values[:, :2].max(axis=1) >= limit) & (values[:, 2] >= 153) & (values[:, 2] <= 158)
    )
    chance = float(good.mean())
    result = inside(text)
    assert result is not None
    assert result.ranged
    assert result.states == ("full", "low")
    allowed = 400.0 * np.sqrt(chance * (1.0 - chance) / count) + 2.0 * result.figures.u[0]
    assert result.chance_pct == pytest.approx(100.0 * chance, abs=allowed + 0.01)


def test_it_is_the_same_each_time_and_never_more_than_each_part() -> None:
    """Seeded; a joint chance is no larger than the chance of the worst margin alone."""
    first, again = inside(NARROW), inside(NARROW + "\n")
    assert first is not None
    assert again is not None
    assert first.chance_pct == again.chance_pct
    worst = 1.0 - assessed(NARROW).results["balance.margins"].chance.max()
    assert first.chance_pct <= 100.0 * worst + 1e-9


def test_what_is_not_known_is_left_out() -> None:
    """Without a tail only the range counts, without a range only the margins, without both nothing."""
    no_tail = SMALL.replace('surface = "tail"', 'surface = "fin"')
    no_range = SMALL.replace("cg_range_mm = [135, 175]\n", "")
    one, two = inside(no_tail), inside(no_range)
    assert one is not None
    assert two is not None
    assert (one.states, one.ranged) == ((), True)
    assert (two.states, two.ranged) == (("full", "low"), False)
    assert inside(without_rows(no_range, "panel")) is None
