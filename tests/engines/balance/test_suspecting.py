"""Slips that were planted in a description are found by its weigh-in."""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from hardstand.engines.balance.model import WeighedIn
from tests.aeroplanes import SMALL, assessed, exact, of_code, swapped, weighed_as, without_rows

PIECES = """
[[mass]]
id = "pack"
mass_g = 186
at_mm = [350, 30, 0]
[[mass]]
id = "pump"
mass_g = 95
at_mm = [620, -40, 0]
[[mass]]
id = "valve"
mass_g = 43
at_mm = [1250, 60, 10]
[[mass]]
id = "fin"
mass_g = 310
at_mm = [1700, 0, 120]
"""
TRUE = SMALL + PIECES
AGAIN = '[[mass]]\nid = "pump-again"\nname = "pump"\nmass_g = 95\nat_mm = [620, -40, 0]\n'


@dataclass(frozen=True)
class Planted:
    """What is entered instead of the truth, and what should be said about it."""

    entered: str
    kind: str
    name: str
    words: str
    pitch_deg: float = 0.0


PLANTED = {
    "two digits swapped": Planted(
        swapped(TRUE, "mass_g = 186", "mass_g = 168"),
        "two digits of the mass swapped",
        "pack",
        "pack weighs 186 g, not 168 g (two digits swapped)",
    ),
    "entered twice": Planted(
        TRUE + AGAIN, "counted twice", "pump", "pump (95.0 g) is entered twice, or not on board"
    ),
    "forgotten": Planted(
        TRUE.replace(PIECES[: PIECES.index("[[mass]]", 5)], ""),
        "missing item",
        "missing item",
        "something of 186 g near station 350 is on board and not entered",
    ),
    "ounces as grams": Planted(
        swapped(TRUE, "mass_g = 310", "mass_g = 10.935"),
        "ounces entered as grams",
        "fin",
        "fin was weighed in ounces and entered as 10.9 g",
    ),
    "the other side": Planted(
        swapped(TRUE, "at_mm = [350, 30, 0]", "at_mm = [350, -30, 0]"),
        "place on the other side",
        "pack",
        "pack sits on the other side",
    ),
    "nose down on the scales": Planted(
        TRUE,
        "level while weighing",
        "level while weighing",
        "lower on the scales than stated",
        -2.0,
    ),
}


def weighed(plant: Planted) -> tuple[WeighedIn, list[str]]:
    """The weigh-in of the true aeroplane beside what was entered, and what is said of it."""
    true = assessed(exact(TRUE))
    mass, *cg = (
        true.figure(f"balance.built-{name}@empty").value
        for name in ("mass", "cg-x", "cg-y", "cg-z")
    )
    readings = weighed_as(mass, cg, pitch_deg=plant.pitch_deg, stated_deg=0.0)
    found = assessed(exact(plant.entered), readings)
    texts = [one.text for code in ("balance.weigh-in-mass", "balance.weigh-in-cg")
             for one in of_code(found, code)]  # fmt: skip
    return found.results["balance.weighings"].weighed[0], texts


@pytest.mark.parametrize("name", PLANTED)
def test_a_planted_slip_is_among_the_first_three_suspects(name: str) -> None:
    """The true slip stands among the first three, and is said in words a builder can act on."""
    plant = PLANTED[name]
    found, texts = weighed(plant)
    first = list(zip(found.suspects, found.suspect_names, found.suspect_words, strict=True))[:3]
    assert (plant.kind, plant.name) in [(one.kind, about) for one, about, _ in first]
    said = next(
        words for one, about, words in first if (one.kind, about) == (plant.kind, plant.name)
    )
    assert plant.words in said
    assert texts
    assert any(said in text for text in texts)


def test_a_place_that_many_could_have_is_not_pinned_on_one() -> None:
    """One station too far forward could be anybody's: the shares say so."""
    text = swapped(TRUE, "at_mm = [1250, 60, 10]", "at_mm = [250, 60, 10]")
    found, texts = weighed(Planted(text, "", "", ""))
    assert {one.kind.split(" of ")[0] for one in found.suspects} <= {
        "place along x", "level while weighing", "station"}  # fmt: skip
    assert max(one.share for one in found.suspects) < 0.5
    assert len(texts) == 1
    assert texts[0].count("farther aft than at station") >= 2


def test_a_sound_weigh_in_suspects_nobody() -> None:
    """Readings of the aeroplane as entered raise no finding."""
    _, texts = weighed(Planted(TRUE, "", "", ""))
    assert texts == []


def test_a_stand_suspects_nobody() -> None:
    """One number cannot tell slips apart."""
    stand = '[[weighing]]\nid = "w"\nstate = "empty"\nmethod = "stand"\nstand_x_mm = 990\ntips = "level"\n'
    found = assessed(SMALL, stand)
    assert found.results["balance.weighings"].weighed[0].suspects == ()
    assert [one.severity for one in of_code(found, "balance.weigh-in-cg")] == ["measure"]
    assert "No single slip" in of_code(found, "balance.weigh-in-cg")[0].text


def test_without_legs_the_scales_stand_where_they_say() -> None:
    """Scales placed by coordinates find the slip just as well."""
    text = exact(without_rows(swapped(TRUE, "mass_g = 186", "mass_g = 168"), "leg"))
    true = assessed(exact(TRUE))
    mass, *cg = (
        true.figure(f"balance.built-{name}@empty").value
        for name in ("mass", "cg-x", "cg-y", "cg-z")
    )
    readings = weighed_as(mass, cg)
    for leg, at in (
        ("nose", [400, 0, -260]),
        ("left", [1030, -250, -260]),
        ("right", [1030, 250, -260]),
    ):
        readings = readings.replace(f'under = "{leg}-leg"', f"at_mm = {at}")
    found = assessed(text, readings).results["balance.weighings"].weighed[0]
    assert (found.suspects[0].kind, found.suspect_names[0]) == (
        PLANTED["two digits swapped"].kind,
        "pack",
    )


def test_nothing_is_missing_where_no_item_could_be() -> None:
    """A CG far off with next to no difference in mass is not blamed on a gram ten metres away."""
    true = assessed(exact(TRUE))
    mass, *cg = (
        true.figure(f"balance.built-{name}@empty").value
        for name in ("mass", "cg-x", "cg-y", "cg-z")
    )
    readings = weighed_as(mass + 3.0, [cg[0] + 20.0, *cg[1:]])
    found = assessed(exact(TRUE), readings).results["balance.weighings"].weighed[0]
    assert "missing item" not in {one.kind for one in found.suspects}
