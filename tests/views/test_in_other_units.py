from __future__ import annotations

import pytest

from hardstand.views.in_other_units import in_units


@pytest.mark.parametrize(
    "text, shown",
    [
        ("Gap 25.4 mm.", "Gap 1.000 in."),
        ("The mass is 13.358 ± 0.017 kg.", "The mass is 29.449 ± 0.037 lb."),
        ("At 20 °C, within ± 5 mm.", "At 68 °F, within ± 0.20 in."),
        ("Range 243 to 260 mm, 5 g heavier.", "Range 9.57 to 10.24 in, 0.2 oz heavier."),
        ("Move −6.2 mm.", "Move −0.244 in."),
        ("At 5.00 kg·m² it turns.", "At 118.65 lb·ft² it turns."),
        ("A box of 52 × 28 × 13 mm.", "A box of 2.05 × 1.10 × 0.51 in."),
    ],
)
def test_figures_in_a_sentence_are_converted(text: str, shown: str) -> None:
    """Each figure is shown in the other unit, as finely as before. Factors: NIST SP 811, app. B."""
    assert in_units(text, "imperial") == shown


@pytest.mark.parametrize(
    "text",
    [
        "See item.rx.at_mm and mass_g.",
        "3 go",
        "2 gears",
        "In state cruise-50 mm-wise",
        "Chance 4 % at 3.0 % MAC, 12 V, 5000 mAh.",
    ],
)
def test_what_is_no_length_or_mass_stays(text: str) -> None:
    """Addresses, words and other units are left as they are."""
    assert in_units(text, "imperial") == text


def test_metric_is_as_written() -> None:
    """A metric reader gets the engine's own sentence."""
    assert in_units("Gap 25.4 mm.", "metric") == "Gap 25.4 mm."
