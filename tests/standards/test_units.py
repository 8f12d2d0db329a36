from __future__ import annotations

import contextlib
import math
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.standards.units import (
    UNITS,
    UnitError,
    from_text,
    is_tolerance,
    show,
    split_suffix,
)

WORDS = ["g", "kg", "lb", "in", "m", "s", "°", "%", "/", "·", "*", "^2", "2", "C", "N", "deg", "F"]


def test_table_is_the_closed_one() -> None:
    """The suffixes are exactly those the file format promises, and no others."""
    promised = "mm g deg s v a w mah mohm n nm us kpa ml ml_min m_s degc kgm2 hz pct kg_m3 mm2"
    assert set(UNITS) == set(promised.split())


@pytest.mark.parametrize(
    "field, expected",
    [
        ("mass_g", ("mass", "g")),
        ("mass_tol_g", ("mass", "g")),
        ("flow_ml_min", ("flow", "ml_min")),
        ("speed_tol_m_s", ("speed", "m_s")),
        ("stall_torque_nm", ("stall_torque", "nm")),
        ("top_z_mm", ("top_z", "mm")),
        ("inertia_kgm2", ("inertia", "kgm2")),
        ("mass_kg", ("mass_kg", None)),
        ("mm", ("mm", None)),
        ("_mm", ("_mm", None)),
        ("format", ("format", None)),
    ],
)
def test_split_suffix(field: str, expected: tuple[str, str | None]) -> None:
    """The longest suffix of the table is split off, kg is not one, and a stem is never empty."""
    assert split_suffix(field) == expected


@given(st.from_regex(r"[a-z]{1,8}(_[a-z]{1,6}){0,2}", fullmatch=True), st.sampled_from(list(UNITS)))
def test_value_and_tolerance_share_a_stem(stem: str, unit: str) -> None:
    """A quantity's field and its tolerance's field have the same stem and unit."""
    value, tolerance = f"{stem}_{unit}", f"{stem}_tol_{unit}"
    assert is_tolerance(tolerance)
    assert split_suffix(tolerance)[1] == split_suffix(value)[1]
    if split_suffix(value)[1] == unit and not is_tolerance(value):
        assert split_suffix(tolerance) == (split_suffix(value)[0], unit)


@pytest.mark.parametrize("unit", UNITS)
def test_every_example_can_be_read(unit: str) -> None:
    """The example that an error message offers is itself accepted, and so is the suffix."""
    assert from_text(UNITS[unit].example, unit) > 0.0
    assert from_text(f"2 {unit}", unit) == 2.0


@pytest.mark.parametrize(
    "text, unit, expected",
    [
        ("0.3 nm", "nm", 0.3),
        ("0.3 Nm", "nm", 0.3),
        ("30 N·cm", "nm", 0.3),
        ("3000 rpm", "hz", 50.0),
        ("−2.5 in", "mm", -63.5),
        ("5000mAh", "mah", 5000.0),
        ("0.5 l/min", "ml_min", 500.0),
        ("20 C", "degc", 20.0),
        ("68 °F", "degc", 20.0),
        ("2 kg m²", "kgm2", 2.0),
        ("180 deg", "deg", 180.0),
        ("10 mΩ", "mohm", 10.0),
        ("1 imperial gallon", "ml", 4546.09),
    ],
)
def test_workshop_spellings(text: str, unit: str, expected: float) -> None:
    """Units mean what they mean in a workshop, not what a physics library makes of them."""
    assert from_text(text, unit) == pytest.approx(expected, rel=1e-12)


def test_temperature_width_has_no_zero_point() -> None:
    """A tolerance of 9 °F is 5 °C wide."""
    assert from_text("9 °F", "degc", difference=True) == 5.0


@pytest.mark.parametrize(
    "text, unit, part",
    [
        ("5 in", "g", "that is a length"),
        ("5 nm", "mm", "that is a torque"),
        ("3.2 kg cm", "nm", 'write "kgf cm"'),
        ("9 lb·ft", "nm", 'write "lbf ft"'),
        ("3 oz", "n", 'write "ozf"'),
        ("90 %", "deg", "that is a ratio"),
        ("90 deg", "pct", "that is an angle"),
        ("360 deg/s", "hz", "measures something else"),
        ("5 C", "mah", "rate"),
        ("12", "g", "has no unit"),
        ("12,5 oz", "g", "a point, not a comma"),
        ("heavy", "g", "does not begin with a number"),
        ("", "g", "does not begin with a number"),
        ("nan g", "g", "does not begin with a number"),
        ("12 stones and more", "g", "not a unit known here"),
        ("3.5 delta_degC", "degc", "not a unit known here"),
        ("3 dBm^2", "pct", "not a unit known here"),
        ("3 dBm^2", "degc", "not a unit known here"),
        ("1 mm**9**9**9", "mm", "is not a unit"),
        ("1 __import__('os')", "mm", "is not a unit"),
        ("1e999 m", "mm", "too large"),
        ("1" * 500, "mm", "does not begin"),
    ],
)
def test_refusals_say_what_was_expected(text: str, unit: str, part: str) -> None:
    """A wrong text is refused with what is wrong, what was expected and an example."""
    with pytest.raises(UnitError) as caught:
        from_text(text, unit)
    message = str(caught.value)
    assert part in message
    assert UNITS[unit].quantity in message
    assert UNITS[unit].example in message
    assert len(message) < 300


@given(st.text(max_size=80), st.sampled_from(list(UNITS)))
def test_any_text_is_a_finite_number_or_an_error(text: str, unit: str) -> None:
    """No text raises anything but UnitError or gives a number that is not finite."""
    with contextlib.suppress(UnitError):
        assert math.isfinite(from_text(text, unit))


@given(
    st.sampled_from(["1.5", "-2", "1e3"]),
    st.lists(st.sampled_from(WORDS), max_size=6),
    st.sampled_from(list(UNITS)),
)
def test_any_unit_words_are_a_finite_number_or_an_error(
    number: str, words: list[str], unit: str
) -> None:
    """The same for texts that look like quantities."""
    for gap in ("", " "):
        with contextlib.suppress(UnitError):
            assert math.isfinite(from_text(number + " " + gap.join(words), unit))


@pytest.mark.parametrize(
    "value, unit, u, expected",
    [
        (312.3, "mm", 2.1, "312 ± 4 mm"),
        (312.34, "mm", None, "312.3 mm"),
        (-6.2, "mm", None, "−6.2 mm"),
        (-0.01, "mm", None, "0.0 mm"),
        (0.3, "mm", 0.001, "0.3 ± 0.1 mm"),
        (3.04, "mm", 0.75, "3.0 ± 1.5 mm"),
        (3.04, "mm", 0.0, "3.0 mm"),
        (1180.4, "g", None, "1180 g"),
        (42.36, "g", None, "42.4 g"),
        (9999.4, "g", None, "9999 g"),
        (9999.6, "g", None, "10.000 kg"),
        (-21500.0, "g", None, "−21.500 kg"),
        (25340.0, "g", 70.0, "25.34 ± 0.14 kg"),
        (1234.0, "g", 80.0, "1230 ± 160 g"),
        (12.34, "deg", 0.2, "12.3 ± 0.4°"),
        (math.inf, "s", None, "∞"),
        (math.nan, "s", None, "no value"),
    ],
)
def test_show_metric(value: float, unit: str, u: float | None, expected: str) -> None:
    """Values are rounded to what their uncertainty or their unit's step carries."""
    assert show(value, unit, u) == expected


@pytest.mark.parametrize(
    "value, unit, u, expected",
    [
        (25.4, "mm", None, "1.000 in"),
        (453.59237, "g", None, "1.00 lb"),
        (20.0, "degc", 2.0, "68 ± 7 °F"),
        (7.4, "v", None, "7.40 V"),
    ],
)
def test_show_imperial(value: float, unit: str, u: float | None, expected: str) -> None:
    """The builder's other system changes what is shown, width of a temperature included."""
    assert show(value, unit, u, "imperial") == expected


@given(st.floats(-1e5, 1e5), st.floats(1e-4, 1e4), st.sampled_from(["mm", "g", "a", "ml"]))
def test_shown_half_width_is_near_twice_u(value: float, u: float, unit: str) -> None:
    """What stands after ± differs from 2u by less than a fifth, or is the finest step shown."""
    text = show(value, unit, u)
    width, symbol = text.split(" ± ")[1].split(" ")
    expanded = float(width) * (1000.0 if symbol == "kg" else 1.0)
    rungs = [rung for rung in UNITS[unit].metric if rung.symbol == symbol]
    step = max(rung.size * 10.0**-rung.decimals for rung in rungs)
    assert expanded > 0.0
    assert abs(expanded - 2.0 * u) <= max(0.2 * 2.0 * u, step) * (1.0 + 1e-9)


PIECES = ["mm", "kg", "^2", "²", "/", "·", " ", "°C", "F", "e", "1", "-", "µ", "Ω", "oz", "N", "m", "%", "dB",
          "dBm", "delta_degC", "pH", "radian", "rpm", "US", "gallon", "imperial", "planck_mass", "1e308"]  # fmt: skip


@given(
    st.sampled_from(["1 ", "3.5", "-2 ", "1e300 ", "0"]),
    st.lists(st.sampled_from(PIECES), max_size=4).map("".join),
    st.sampled_from(sorted(UNITS)),
    st.booleans(),
)
def test_no_text_does_more_than_be_refused(number: str, words: str, unit: str, difference: bool) -> None:
    """Whatever the unit library makes of the words: a finite value, or a refusal in our words."""
    with suppress(UnitError):
        assert math.isfinite(from_text(number + words, unit, difference=difference))
