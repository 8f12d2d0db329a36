"""The table of wire in `show power`: what comes first, what is left out, and what is said below."""

from __future__ import annotations

from functools import cache
from typing import Any

from hardstand.asbuilt import build
from hardstand.assessment import assess
from hardstand.cli.begin import demo_texts
from hardstand.description.read import read_texts
from hardstand.engines.harness import STAGE as HARNESS
from hardstand.engines.power.stage import STAGE as POWER
from hardstand.views.power_form import power_form
from hardstand.views.power_wires import wire_plate


@cache
def form() -> dict[str, Any]:
    """The demo's power as plain data."""
    aeroplane = build(read_texts(demo_texts("as-built")).description)
    return power_form(assess(aeroplane, [HARNESS, POWER]), aeroplane)


def printed(shown: dict[str, Any], *, every: bool = False, room: int = 130) -> list[str]:
    """The lines of the table as text."""
    return ["".join(piece[0] for piece in one).rstrip()
            for one in wire_plate(shown, "metric").lines(room, every=every)]


def test_the_leads_that_need_thicker_wire_come_first() -> None:
    """Then those that could be lighter, by mass; a lead that is as it should be is left out."""
    lines = printed(form())
    leads = [one.split()[0] for one in lines if one[:1] in ("H", "K") and "gauge" in one]
    assert leads[:2] == ["H15", "H16"]
    assert "H01" not in leads
    assert "+27.0 g" in next(one for one in lines if one.startswith("H15"))


def test_all_shows_every_lead_with_a_current() -> None:
    """With --all there is a row for each of them."""
    lines = printed(form(), every=True)
    for one in form()["wires"]:
        assert any(line.split()[:1] == [one["lead"]] for line in lines), one["lead"]


def test_what_is_left_out_is_counted() -> None:
    """Rows that are shown and those that are said to be left make up all leads."""
    lines = printed(form())
    shown = sum(any(line.split()[:1] == [one["lead"]] for line in lines) for one in form()["wires"])
    (more,) = [line for line in lines if "--all" in line]
    assert shown + int(more.split()[1]) == len(form()["wires"])


def test_the_line_names_the_current_that_the_choice_rests_on() -> None:
    """Where warmth asks for the wire, what lasts is shown, and when."""
    (one,) = [each for each in form()["wires"] if each["binds"] == "warmth"]
    row = next(line for line in printed(form(), every=True) if line.split()[:1] == [one["lead"]])
    assert one["lasting_at"].split()[0] in row


def test_leads_without_a_current_are_named_below() -> None:
    """They are not chosen for, and the reader is told so."""
    assert "Nobody states a current of" in " ".join(printed(form()))


def test_nothing_can_be_thick_enough() -> None:
    """A lead for which no standard wire does says so, first of all."""
    wires = [{**form()["wires"][0], "lead": "huge", "chosen": None, "mass_difference_g": None,
              "connector_enough": ""}, *form()["wires"]]  # fmt: skip
    lines = printed({**form(), "wires": wires})
    first = next(line for line in lines if "gauge" in line)
    assert first.startswith("huge")
    assert first.count("none") == 2
