from __future__ import annotations

from typing import Any

import pytest

from hardstand.views.check import check_page
from hardstand.views.ink import width_of
from hardstand.views.notice import NOTICE
from tests.small_aeroplane import printed


def form(**more: Any) -> dict[str, Any]:
    """An assessment's form with one finding of each severity, and one stage of each state."""
    findings = [
        {
            "code": f"fit.{word}",
            "severity": word,
            "about": ["hub", "rx"],
            "text": f"Sentence {word} with 12.3 ± 0.4 mm.",
            "figure": None,
            "limit": None,
            "accepted": "trial fit (owner)" if word == "caution" else None,
            "remedy": {"text": "Move it.", "effects": ["It fits."], "changes": []}
            if word == "no-go"
            else None,
        }
        for word in ("no-go", "measure", "caution", "note")
    ]
    stages = {
        name: {"state": state, "title": name, "missing": missing}
        for name, state, missing in (
            ("fit", "assessed", []),
            ("balance", "partly", ["no tail"]),
            ("power", "not assessed", ["nothing described"]),
        )
    }
    return {
        "format": 1,
        "aeroplane": "Heron",
        "options": [],
        "findings": findings,
        "stages": stages,
        **more,
    }


@pytest.mark.parametrize("measure", [40, 78, 100])
def test_the_page_keeps_to_its_measure(measure: int) -> None:
    """No line of the page is wider than the measure it was given."""
    assert all(width_of(one) <= measure for one in printed(check_page(form(), measure)))


def test_the_page_says_everything_in_order() -> None:
    """Findings in their order with number, word, code, subjects, sentence, remedy and acceptance."""
    page = " ".join(" ".join(printed(check_page(form(), 78))).split())
    words = [
        "1 no-go, 1 to measure, 1 caution, 1 note",
        "1 ■ no-go fit.no-go hub, rx",
        "Sentence no-go with 12.3 ± 0.4 mm.",
        "Remedy: Move it. With it: It fits.",
        "2 ↔ measure fit.measure",
        "3 ▲ caution fit.caution",
        "Accepted: trial fit (owner)",
        "4 ○ note fit.note",
        "✓ fit assessed",
        "◐ balance partly missing: no tail",
        "◌ power not assessed nothing described",
        "1 no-go stands",
        NOTICE,
    ]
    places = [page.find(one) for one in words]
    assert -1 not in places, [one for one, at in zip(words, places, strict=True) if at < 0]
    assert places == sorted(places)


def test_not_assessed_is_said_to_be_no_go_ahead() -> None:
    """An aeroplane without findings is not called fit to fly: what was not assessed is said."""
    page = " ".join(printed(check_page(form(findings=[]), 78)))
    assert "No no-go was found in what was assessed." in page
    assert "not assessed is not “go”" in page


def test_nothing_assessed_is_said() -> None:
    """Where no stage was assessed there is no verdict that could be misread."""
    empty = {"power": {"state": "not assessed", "title": "power", "missing": ["nothing described"]}}
    page = " ".join(printed(check_page(form(findings=[], stages=empty), 78)))
    assert "Nothing could be assessed yet" in page
    assert "No no-go" not in page


def test_the_page_never_says_safe() -> None:
    """No page states that an aeroplane is safe."""
    for found in (form(), form(findings=[])):
        assert "safe" not in " ".join(printed(check_page(found, 78))).lower()


def test_imperial_converts_the_sentences() -> None:
    """A builder who reads imperial gets the figures of the sentences in inches."""
    page = " ".join(printed(check_page(form(), 78, "imperial")))
    assert "0.484 ± 0.016 in" in page
