from __future__ import annotations

from pathlib import Path

import pytest

from hardstand.engines.fit.placement import NotFreeError
from hardstand.placement import place
from hardstand.placement_value import Outcome, Request
from hardstand.workspace import open_folder
from tests.small_aeroplane import laid_out
from tests.small_placement import TEXT, tight


def placed(folder: Path, text: str, **asked: object) -> Outcome:
    """What comes of a request for a text."""
    request = Request(**{"work": 1, **asked})  # type: ignore[arg-type]
    return place(open_folder(laid_out(folder, text)), request)


def spots(outcome: Outcome) -> list[tuple[object, ...]]:
    """Where each item stands in each layout."""
    return [tuple((p.item, p.at_mm, p.turn_deg) for p in one.places) for one in outcome.layouts]


def test_a_layout_is_better_checked_and_the_same_again(tmp_path: Path) -> None:
    """It costs less than the start, no bound lies above it, nothing new is found; twice the same."""
    first = placed(tmp_path / "one", TEXT)
    best = first.layouts[0]
    assert first.bound_mm <= best.cost_mm < first.start_mm
    assert best.checked.clashes == ()
    assert best.changes
    again = placed(tmp_path / "two", TEXT)
    assert (spots(again), again.bound_mm) == (spots(first), first.bound_mm)


def test_only_what_is_named_moves(tmp_path: Path) -> None:
    """With one item free all others stay, and say so."""
    outcome = placed(tmp_path / "jet", TEXT, free=("hub",))
    assert [one.item for one in outcome.layouts[0].places] == ["hub"]
    assert outcome.held["pump"] == "was not asked to move"
    with pytest.raises(NotFreeError):
        placed(tmp_path / "jet", TEXT, free=("sink",))


def test_a_shelf_a_millimetre_too_short_says_so(tmp_path: Path) -> None:
    """The least contradiction names the two items and the shelf, and that one millimetre would do."""
    assert placed(tmp_path / "fits", tight(65)).layouts
    outcome = placed(tmp_path / "short", tight(64))
    assert outcome.ending == "infeasible"
    said = " ".join(outcome.contradicts)
    assert "Hub (hub)" in said
    assert "Pump (pump)" in said
    assert "Shelf (shelf) 1 mm longer" in outcome.ways_out
    assert outcome.contradiction_proven


def test_layouts_asked_for_are_different_and_all_checked(tmp_path: Path) -> None:
    """Each layout of several passes the checks, the first is the cheapest, and no two are alike."""
    outcome = placed(tmp_path / "jet", TEXT, alternatives=3)
    assert len(outcome.layouts) >= 2
    assert len(set(spots(outcome))) == len(outcome.layouts)
    assert all(one.checked.passed for one in outcome.found)
    assert outcome.layouts[0].cost_mm == min(one.cost_mm for one in outcome.layouts)
    assert all(one.elsewhere >= 1 for one in outcome.layouts[1:])


def test_a_search_that_is_cut_off_gives_the_best_so_far(tmp_path: Path) -> None:
    """Stopped by hand as soon as there is a layout it gives that one, checked, and says so."""
    heard: list[str] = []
    request = Request(work=1000)
    folder = laid_out(tmp_path / "jet", TEXT)
    outcome = place(open_folder(folder), request, heard.append,
                    lambda: any(one.startswith("layout of") for one in heard))  # fmt: skip
    assert outcome.ending == "cancelled"
    assert outcome.layouts[0].checked.passed


def test_what_clashes_in_three_dimensions_is_never_a_layout(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the translation is blind to a post all over the shelf the check is not: none is given."""
    monkeypatch.setattr("hardstand.engines.fit.placement.barriers.rule_of", lambda *_: None)
    text = TEXT.replace("[170, -40], [180, -40], [180, -30], [170, -30]",
                        "[110, -58], [250, -58], [250, 58], [110, 58]")  # fmt: skip
    outcome = placed(tmp_path / "jet", text, free=("hub",))
    assert outcome.layouts == ()
    about = [set(one.about) for one in outcome.found[0].checked.clashes]
    assert {"hub", "post"} in about
    assert outcome.found[0].checked.tries == 4
    assert len(outcome.failed) >= 4
