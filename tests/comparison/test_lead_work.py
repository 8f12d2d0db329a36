from __future__ import annotations

import pytest

from hardstand.asbuilt import AsBuilt, build
from hardstand.comparison.lead_work import lead_work
from hardstand.description.read import read_texts
from tests.small_aeroplane import TEXT

OWN = """
[[part]]
id = "box"
size_mm = [20, 20, 10]
mass_g = 10
[[port]]
part = "box"
id = "in"
face = "top"
connector = "{}"
gender = "{}"
"""
LEAD = """
[[item]]
id = "one"
part = "box"
at_mm = [100, 0, 0]
[[item]]
id = "two"
part = "box"
at_mm = [300, 0, 0]
[[lead]]
id = "L"
from = "{}"
to = "there"
length_mm = {}
"""


def made(end: str = "one.in", length: int = 300, connector: str = "3-pin", gender: str = "pin") -> AsBuilt:
    """A small aeroplane with one lead; the plug is that of every box."""
    texts = {"aeroplane.toml": TEXT + LEAD.format(end, length), "parts/own.toml": OWN.format(connector, gender)}
    return build(read_texts(texts).description)


@pytest.mark.parametrize(
    "after, straight, to_make, elsewhere, why",
    [
        (made(), 10.0, (), (), ()),
        (made("two.in"), 10.0, (), ("L",), ()),
        (made("two.in", connector=""), 10.0, (), ("L",), ()),
        (made("two.in", connector="2-pole"), 10.0, ("L",), (), ("another plug at two.in",)),
        (made("two.in", gender="socket"), 10.0, ("L",), (), ("another plug at two.in",)),
        (made("two.in"), 301.0, ("L",), (), ("too short",)),
        (made(length=200), 10.0, ("L",), (), ("another length",)),
    ],
)
def test_what_a_lead_that_is_there_can_do(
    after: AsBuilt, straight: float, to_make: tuple[str, ...], elsewhere: tuple[str, ...], why: tuple[str, ...]
) -> None:
    """It is plugged in elsewhere where it fits and reaches, else made anew, with the reason."""
    work = lead_work(made(), after, {"L": straight})
    assert (work.to_make, work.elsewhere, work.why) == (to_make, elsewhere, why)


def test_new_leads_are_made_and_others_left_over() -> None:
    """By their ids."""
    bare = build(read_texts({"aeroplane.toml": TEXT}).description)
    assert lead_work(bare, made(), {}).to_make == ("L",)
    assert lead_work(made(), bare, {}).left_over == ("L",)
