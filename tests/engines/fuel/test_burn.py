from __future__ import annotations

import pytest

from hardstand.description.fuel import State
from hardstand.engines.fuel.burn import burn_bases, burn_fillings, burn_states


@pytest.mark.parametrize("reserve_pct", [0.0, 20.0, 100.0])
@pytest.mark.parametrize("header_pct", [0.0, 60.0, 100.0])
def test_fuel_only_ever_gets_less_and_the_header_goes_last(
    reserve_pct: float, header_pct: float
) -> None:
    """Full to the reserve in 21 steps, on to nothing, the header untouched until the mains are dry."""
    fillings, flown = burn_fillings(reserve_pct, header_pct)
    main, header = zip(*fillings, strict=True)
    assert (flown, main[0], main[flown - 1], fillings[-1]) == (21, 100.0, reserve_pct, (0.0, 0.0))
    assert list(main) == sorted(main, reverse=True)
    assert list(header) == sorted(header, reverse=True)
    assert all(one == header_pct for one, left in zip(header, main, strict=True) if left > 0.0)


def test_a_run_begins_from_the_fullest_flown_state_of_its_gear() -> None:
    """States that are not flown, and less full ones, are passed over; so is a gear never flown."""
    states = [
        State(id="a", gear="up", fuel_pct=20.0),
        State(id="b", gear="up", fuel_pct=80.0, pitch_deg=3.0),
        State(id="c", gear="up", fuel_pct=100.0, flown=False),
        State(id="d", gear="down", flown=False),
    ]
    assert [base.id for base in burn_bases(states)] == ["b"]
    made, _ = burn_states(states[1], 20.0)
    assert {one.pitch_deg for one in made} == {3.0}
    assert len({one.id for one in made}) == len(made)
