from __future__ import annotations

import re
from typing import Any

import pytest

from hardstand.asbuilt.build import build
from hardstand.asbuilt.measuring import MeasureError, measurement_row
from hardstand.description.new_ids import free_id
from hardstand.description.read import Read, read_texts
from hardstand.description.write import apply_to_texts
from tests.small_aeroplane import TEXT

TEXTS = {
    "aeroplane.toml": TEXT.replace("mass_g = 1000", 'mass_g = "35.5 oz"')
    + '\n[[alias]]\nid = "item.receiver"\nnow = "rx"\n'
}
READ = read_texts(TEXTS)


def added(read: Read, address: str, value: Any, **more: Any) -> Read:
    """The aeroplane with a measurement written into its files and read again."""
    row = measurement_row(read, address, value, **more)
    return read_texts({**TEXTS, **apply_to_texts(TEXTS, [row])})


def test_a_row_holds_what_is_declared_now() -> None:
    """Declared value and part stand beside the measured one, with who measured how well and when."""
    row = measurement_row(
        READ, "item.rx.at_mm", [261, 0], tol=0.5, instrument="rule", date="2026-04-18"
    )
    assert row.row == {
        "id": "rx-at",
        "address": "item.rx.at_mm",
        "value": [261, 0],
        "tol": 0.5,
        "instrument": "rule",
        "date": "2026-04-18",
        "declared": [260, 0],
        "part": "receiver-12-channel",
    }


@pytest.mark.parametrize(
    "address, value",
    [
        ("mass.wing.mass_g", 812),
        ("mass.shell.mass_g", 990),
        ("item.rx.mass_g", 21.5),
        ("cg_mark.at_mm", [401, 60, 0]),
        ("item.receiver.raise_mm", 3),
    ],
)
def test_what_was_measured_is_in_force(address: str, value: Any) -> None:
    """Whatever is declared (a number, text with a unit, the part's own, nothing), the row is not stale."""
    read = added(READ, address, value)
    assert build(read.description).stale == ()
    assert len(read.description.measurement) == 1


def test_it_is_stale_once_the_declared_value_is_another() -> None:
    """The declared value written beside it is what it is held against."""
    row = measurement_row(READ, "mass.wing.mass_g", 812)
    texts = {**TEXTS, **apply_to_texts(TEXTS, [row])}
    texts["aeroplane.toml"] = texts["aeroplane.toml"].replace("mass_g = 800", "mass_g = 805")
    assert [one.id for one in build(read_texts(texts).description).stale] == ["wing-mass"]


def test_units_in_words_and_a_former_id() -> None:
    """A text with a unit becomes a number of the field's unit; a former id the present one."""
    row = measurement_row(READ, "item.receiver.mass_g", "0.75 oz", tol="0.1 oz").row
    assert row["address"] == "item.rx.mass_g"
    assert row["value"] == pytest.approx(21.262142)
    assert row["tol"] == pytest.approx(2.834952)


@pytest.mark.parametrize(
    "address, value, tol, says, hint",
    [
        ("item.ry.mass_g", 1, None, "no item ry", "rx"),
        ("item.rx.mass_kg", 1, None, "no measured field", "mass_g"),
        ("item.rx.note", 1, None, "no measured field", "mass_g"),
        ("item.rx.place_tol_mm", 1, None, "no measured field", "mass_g"),
        ("item.rx.at_mm.x", 1, None, "part of a value", "whole value"),
        ("item.rx.at_mm", 1, None, "cannot stand", r"\[260, 0\]"),
        ("item.rx.at_mm", [1, 2, 3], None, "cannot stand", r"\[260, 0\]"),
        ("tray.front.outline_mm", [1, 2], None, "cannot stand", "100, -60"),
        ("mass.wing.mass_g", -3, None, "cannot stand", "800"),
        ("mass.wing.mass_g", "heavy", None, "not a mass", ""),
        ("mass.wing.mass_g", "3 mm", None, "length", ""),
        ("mass.wing.mass_g", True, None, "no number", "mass_g"),
        ("mass.wing.mass_g", 812, -1, "no tolerance", "half-width"),
        ("mass.wing.mass_g", 812, [1, 2], "no tolerance", "half-width"),
        ("state.empty.name", 1, None, "no measured field", ""),
        ("option.aft.note", 1, None, "nothing to measure", ""),
        ("balance.cg@empty", 1, None, "computed figure", ""),
    ],
)
def test_what_cannot_be_measured(address: str, value: Any, tol: Any, says: str, hint: str) -> None:
    """A wrong address, a value of another form or kind, and a wrong tolerance are refused in words."""
    with pytest.raises(MeasureError, match=says) as refused:
        measurement_row(READ, address, value, tol=tol)
    assert re.search(hint, refused.value.hint)


def test_ids_stay_within_their_length() -> None:
    """A long wished id is cut so that its number still fits."""
    long = "a" * 70
    assert len(free_id(long, ())) == 60
    assert free_id(long, {"a" * 60}) == "a" * 58 + "-2"
