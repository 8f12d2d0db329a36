"""What the fit says, as a builder reads it."""

from __future__ import annotations

import re

import pytest

from hardstand.engines.fit import STAGE
from hardstand.engines.fit.stands import OF_PIECES, STANDS, WHY
from hardstand.standards.limits import BY_ID
from tests.engines.fit.small_aeroplane import AROUND, built, findings, item, part
from tests.engines.fit.test_rules_three import BY_CODE, CASES, RECEIVERS, Case, hatch, head, tray

ASIDE = ("fit.gyro-alignment", "fit.gyro-cg", "fit.aerial-angle")  # where a station says nothing


def said(case: Case, by: float) -> str:
    """The sentence of a case whose figure is so far beyond its limit."""
    limit = BY_ID[case.limit or case.code]
    at = limit.low - by if limit.low is not None else (limit.high or 0.0) + by
    found = findings(built(case.body(at), case.parts, case.around), head())
    return next(one.text for one in found if one.code == case.code)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.code)
def test_a_sentence_says_figure_limit_and_where(case: Case) -> None:
    """With ±, what is needed, the station, why it matters; one full stop, no place left open."""
    text = said(case, 8.0)
    assert re.search(r"\d ± \d", text)
    assert re.search(r"\((needs|at most|limit) \d+(\.\d+)?( mm|°)\): ", text)
    assert (" at station " in text) == (case.code not in ASIDE)
    assert text[0].isupper() or text.startswith(("a ", "b ", "one "))
    assert text.endswith(".")
    assert "  " not in text
    assert not re.search(r"[{}]|None|\binf\b|aerial aerial", text)


@pytest.mark.parametrize("case", [one for one in CASES if one.code != "fit.gyro-centreline"],
                         ids=lambda case: case.code)  # fmt: skip
def test_what_is_undecided_names_what_to_measure(case: Case) -> None:
    """In words, not as an address."""
    text = said(case, 0.0)
    assert "The limit lies within the tolerance: to decide, measure " in text
    assert text.endswith(", which counts most.")
    assert not re.search(r"\w\.\w+_mm", text)


def test_every_rule_of_a_figure_has_its_words() -> None:
    """A reason for each, and what stands by pieces stands at all."""
    assert {f"fit.{slug}" for slug in WHY} == set(BY_CODE)
    assert set(OF_PIECES) <= set(STANDS)
    assert {rule.code for rule in STAGE.rules} >= {f"fit.{slug}" for slug in WHY}


SENTENCES = {
    "fit.box-gap": "a and b overlap by 6.0 ± 0.9 mm at station 7 mm (needs 2 mm): boxes that touch wear "
    "through.",
    "fit.plug-room": "b reaches 8.0 ± 0.9 mm into the room of the plugs at the front of a at station "
    "−46 mm (limit 0 mm): the plug must go home, and its lead needs room to bend.",
    "fit.tray-edge": "a hangs 8.0 ± 0.8 mm over the edge of tray at station 98 mm (limit 0 mm): what "
    "hangs over is held by its tape alone.",
    "fit.hole-gap": "a reaches 8.0 ± 0.8 mm over the opening hole at station −1 mm (limit 0 mm): an "
    "opening under a box passes no lead.",
    "fit.aerial-angle": "Aerial one and aerial two stand at 62.0 ± 2.6° to one another (needs 70°): each "
    "is deaf along its own line, and the other must cover it.",
}  # fmt: skip


@pytest.mark.parametrize("code", SENTENCES)
def test_some_sentences_as_they_are_read(code: str) -> None:
    """Whole, as they stand on the page."""
    assert said(BY_CODE[code], 8.0) == SENTENCES[code]


def test_plugs_too_high_are_not_said_to_be_in_the_tray() -> None:
    """What is over the free height of a tray is above it."""
    port = '\n[[port]]\npart = "up"\nid = "p"\nface = "top"\nplug_mm = 20\nbend_mm = 10\n'
    body = tray("height_mm = 40") + item("a", "up", "[0, 0]", 'on = "tray"')
    found = findings(built(body, part("up") + port))
    (text,) = [one.text for one in found if one.code == "fit.plug-room"]
    assert text.startswith(
        "The room of the plugs at the top of a stands 10.0 ± 0.4 mm above the free height of tray"
    )


def test_a_remedy_says_what_it_leaves_and_where_the_cg_goes() -> None:
    """A pack of 300 g moved 13 mm in an aeroplane of 15 kg takes the CG along by 0.3 mm."""
    heavy = part("heavy").replace("mass_g = 10", "mass_g = 300")
    found = findings(built(tray() + item("a", "heavy", "[102, 0]", 'on = "tray"'), heavy), head())
    (one,) = [one for one in found if one.code == "fit.tray-edge"]
    assert one.remedy is not None
    assert one.remedy.text == "Move a 13 mm forward."
    assert one.remedy.effects == ("nothing else is near it", "the CG moves 0.3 mm forward")


def test_a_pack_on_its_way_out() -> None:
    """The hatch, what is in the way, by how much and where."""
    body = (
        hatch(-50, 50)
        + item("a", "pack", "[0, 0, 0]", 'through = "lid"\nname = "Left pack"')
        + item("b", "box", "[15, 0, 60]", 'name = "Logger"')
    )
    found = findings(built(body, RECEIVERS, AROUND))
    (text,) = [one.text for one in found if one.code == "fit.pack-slides-out"]
    assert text.startswith(
        "On its way out through lid Left pack would run 5.0 ± 0.9 mm into Logger at"
    )
