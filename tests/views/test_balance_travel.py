"""The CG as the fuel burns, as a person reads it."""

from __future__ import annotations

from hardstand.views.balance_travel import travel_form, travel_lines
from hardstand.views.ink import text_of
from tests.aeroplanes import SMALL, assessed, without_rows


def page(text: str, system: str = "metric", *, every: bool = False) -> list[str]:
    """The lines for an aeroplane as text."""
    form = travel_form(assessed(text))
    assert system in ("metric", "imperial")
    lines = travel_lines(form, 78, "imperial" if system == "imperial" else "metric", every=every)
    return [text_of(one) for one in lines]


def test_a_run_is_shown_from_full_to_the_reserve() -> None:
    """Five rows a run, first full and last at the reserve; all of them on demand."""
    rows = [one for one in page(SMALL) if one.strip().startswith("gear up")]
    assert len(rows) == 5
    assert rows[0].strip().startswith("gear up, 100 %")
    assert rows[-1].strip().startswith("gear up, 20 %")
    whole = [one for one in page(SMALL, every=True) if one.strip().startswith("gear up")]
    assert len(whole) > 5


def test_travel_and_chance_are_those_of_the_engine() -> None:
    """The figures printed are the engine's own."""
    found = assessed(SMALL)
    travel = found.figure("balance.fuel-travel-mm@gear-up")
    text = " ".join(page(SMALL))
    assert f"{travel.value:.1f} ± " in text
    assert (
        f"{found.figure('balance.chance-inside@flown').value:.1f} %" in text
        or "over 99.9 %" in text
    )


def test_the_ruler_is_in_inches_on_demand() -> None:
    """Imperial units show on the ruler and in the sentence."""
    text = " ".join(page(SMALL, "imperial"))
    assert ", in" in text
    assert "mm" not in text


def test_an_aeroplane_without_fuel_has_nothing_to_show() -> None:
    """Without tanks there is no run and no ruler."""
    form = travel_form(assessed(without_rows(SMALL, "tank")))
    assert form["travel"] == []
