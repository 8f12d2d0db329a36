"""What pages can ask to be done: through the one way of all changes, and refused without a trace."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.small_aeroplane import laid_out
from tests.workbench.asking import ORIGIN, Browser, browser, demo, words


@pytest.fixture
def heron(tmp_path: Path) -> Iterator[Browser]:
    """A browser on the small aeroplane."""
    with browser(laid_out(tmp_path / "heron")) as made:
        yield made


@pytest.fixture
def tarnwing(tmp_path: Path) -> Iterator[Browser]:
    """A browser on the demo's first layout."""
    with browser(demo(tmp_path)) as made:
        yield made


def main_file(made: Browser) -> str:
    """The text of the aeroplane's file."""
    return (made.bench.folder.path / "aeroplane.toml").read_text(encoding="utf-8")


def test_a_move_is_written_and_assessed(heron: Browser) -> None:
    """A change reaches the file with its comments kept, is a revision, and the page has the new place."""
    status, text = heron.do("/change", parts=True, address="item.rx.at_mm", old="[260, 0]",
                            new="[300.5, -12]", back="/trays?item=rx")  # fmt: skip
    assert status == 200
    assert "at_mm = [300.5, -12]" in main_file(heron)
    assert "# touched with a ruler" in main_file(heron)
    assert heron.bench.now.revision == "r2"
    assert "[300.5, -12]" in text
    assert "Written as r2" in words(text)


def test_a_stale_move_is_refused_with_both_values(heron: Browser) -> None:
    """A change made for another value than stands there is refused, and says which two they are."""
    status, text = heron.do("/change", address="item.rx.at_mm", old="[250, 0]", new="[300, 0]", back="/trays")
    assert status == 409
    assert "You saw [250, 0]" in words(text)
    assert "It is now [260, 0]" in words(text)
    assert heron.bench.now.revision == "r1"


def test_an_edit_from_outside_makes_a_move_stale(heron: Browser) -> None:
    """What another program wrote meanwhile is not overwritten."""
    path = heron.bench.folder.path / "aeroplane.toml"
    path.write_text(main_file(heron).replace("[260, 0]", "[270, 0]"), encoding="utf-8")
    status, text = heron.do("/change", address="item.rx.at_mm", old="[260, 0]", new="[300, 0]", back="/trays")
    assert status == 409
    assert "It is now [270, 0]" in words(text)


def test_a_value_that_cannot_stand_is_refused_at_its_field(heron: Browser) -> None:
    """What was typed stays in the field, with what is wrong beside it."""
    status, text = heron.do("/field", address="item.rx.turn_deg", old="null", typed="45",
                            back="/description?table=item&row=rx")  # fmt: skip
    assert status == 422
    field = text[text.index('id="f-turn_deg"') :]
    assert 'value="45"' in field[:200]
    assert "not a multiple of 90" in field[:3000]
    assert "turn_deg" not in main_file(heron)


@pytest.mark.parametrize("field, typed, line", [
    ("mass_g", "14.5 oz", 'mass_g = "14.5 oz"'), ("turn_deg", "90", "turn_deg = 90"),
    ("name", "12", 'name = "12"'), ("removable", "true", "removable = true"),
])  # fmt: skip
def test_a_field_is_read_by_what_it_holds(heron: Browser, field: str, typed: str, line: str) -> None:
    """Numbers, text, flags and text with a unit reach the file as what they are."""
    status, _ = heron.do("/field", address=f"item.rx.{field}", old="null", typed=typed, back="/")
    assert status == 200
    assert line in main_file(heron)


def test_nothing_typed_takes_a_field_out(heron: Browser) -> None:
    """An emptied field is left out of the file."""
    status, _ = heron.do("/field", address="mass.wing.mass_tol_g", old="4", typed=" ", back="/")
    assert status == 200
    assert "mass_tol_g" not in main_file(heron)


def test_a_remedy_is_one_click_and_undo_takes_it_back(tarnwing: Browser) -> None:
    """The remedy of the no-go clears it and says so; undo brings the file back, redo the remedy."""
    before = main_file(tarnwing)
    finding = next(one for one in tarnwing.bench.held().form["findings"] if one["code"] == "balance.cg-range")
    status, text = tarnwing.do("/remedy", code=finding["code"], about=" ".join(finding["about"]),
                               text=finding["remedy"]["text"], back="/")  # fmt: skip
    said = words(text)
    assert status == 200
    assert "No longer there no-go balance.cg-range" in said
    assert re.search(r"Was \d no-go.*; now \d no-go", said)
    after = main_file(tarnwing)
    assert after != before
    assert tarnwing.do("/undo", back="/")[0] == 200
    assert main_file(tarnwing) == before
    assert tarnwing.do("/redo", back="/")[0] == 200
    assert main_file(tarnwing) == after


def test_another_remedy_than_the_one_shown_is_not_made(tarnwing: Browser) -> None:
    """A click on a sentence that no longer stands alters nothing."""
    finding = tarnwing.bench.held().form["findings"][0]
    status, _ = tarnwing.do("/remedy", code=finding["code"], about=" ".join(finding["about"]), text="Other.")
    assert status == 409
    assert tarnwing.bench.now.revision == "r1"


def test_nothing_to_undo_is_said(heron: Browser) -> None:
    """Undo at the first revision changes nothing and says so."""
    status, text = heron.do("/undo", back="/")
    assert status == 409
    assert "nothing to undo" in words(text).lower()


def sha_of(text: str) -> str:
    """The digest that the page of a text carries."""
    found = re.search(r'name="sha256" value="(\w+)"', text)
    assert found is not None
    return found[1]


def test_a_text_is_written_where_it_can_be_read(heron: Browser) -> None:
    """A file typed as text is kept, whatever line ends the browser sends."""
    shown = sha_of(heron.get("/text").text)
    new = main_file(heron).replace("Heron", "Egret")
    status, _ = heron.do("/text", file="aeroplane.toml", sha256=shown, text=new.replace("\n", "\r\n"), back="/text")
    assert status == 200
    assert main_file(heron) == new


def test_a_text_with_a_fault_is_refused_at_its_line(heron: Browser) -> None:
    """What was typed stays, its line is marked, nothing is written."""
    shown = sha_of(heron.get("/text").text)
    old = main_file(heron)
    status, text = heron.do("/text", file="aeroplane.toml", sha256=shown,
                            text=old.replace('on = "front"', 'on = "frnt"'), back="/text")  # fmt: skip
    assert status == 422
    number = old[: old.index('on = "front"')].count("\n") + 1
    assert f'id="line-{number}" class="wrong-line"' in text
    assert "frnt" in text
    assert main_file(heron) == old


def test_a_text_is_looked_at_as_it_is_typed(heron: Browser) -> None:
    """While a file is typed its faults are told, and nothing is written."""
    old = main_file(heron)
    status, text = heron.do("/text-as-typed", parts=True, file="aeroplane.toml", back="/text",
                            text=old.replace('on = "front"', 'on = "frnt"'), leave="drawing")  # fmt: skip
    assert status == 422
    assert "frnt" in text
    status, text = heron.do("/text-as-typed", parts=True, file="aeroplane.toml", back="/text", text=old)
    assert status == 200
    assert "It can be read as it is typed." in text
    assert main_file(heron) == old
    assert heron.bench.now.revision == "r1"


def test_a_text_is_not_written_over_another_edit(heron: Browser) -> None:
    """A file that changed since it was shown is left alone, and what was typed is still there."""
    shown = sha_of(heron.get("/text").text)
    path = heron.bench.folder.path / "aeroplane.toml"
    path.write_text(main_file(heron).replace("Heron", "Egret"), encoding="utf-8")
    status, text = heron.do("/text", file="aeroplane.toml", sha256=shown, text="typed = 1", back="/text")
    assert status == 409
    assert "typed = 1" in text
    assert "Egret" in main_file(heron)


def test_a_weigh_in_is_entered_from_its_form(tmp_path: Path) -> None:
    """Readings of three scales become a weigh-in that the balance shows."""
    with browser(demo(tmp_path)) as made:
        legs = [one.id for one in made.bench.held().asbuilt.legs]
        values = {f"reading.{leg}": "1,565" if "nose" in leg else "5.9 kg" for leg in legs}
        values |= {"state": "ref", "resolution_g": "5", "back": "/weigh-in", "then": "/balance"}
        status, text = made.do("/weigh-in", parts=False, **values)
        assert status == 200
        assert "weigh-in-1" in text
        file = (made.bench.folder.path / "measurements.toml").read_text(encoding="utf-8")
        assert "reading_g = 5900" in file


def test_a_weigh_in_without_readings_is_refused_with_what_was_typed(tarnwing: Browser) -> None:
    """A form that is not complete comes back with its fields and a sentence."""
    status, text = tarnwing.do("/weigh-in", state="ref", by="the owner", back="/weigh-in", then="/balance")
    assert status == 422
    assert "Nothing was weighed" in text
    assert 'value="the owner"' in text


def test_a_trial_tells_and_writes_nothing(tarnwing: Browser) -> None:
    """While something is in the hand its distances and the CG are told, and the file stays."""
    before = main_file(tarnwing)
    at = tarnwing.bench.held().workspace.value_at("item.rx-pack-left.at_mm")
    answer = tarnwing.post("/try", headers={"origin": ORIGIN}, data={
        "address": "item.rx-pack-left.at_mm", "old": json.dumps(at), "item": "rx-pack-left",
        "new": json.dumps([at[0], 0])})  # fmt: skip
    form = answer.json()
    assert answer.status_code == 200
    assert form["gaps"][0]["outcome"] == "outside"
    assert form["cg"]["figure"].startswith("232")
    assert main_file(tarnwing) == before
    assert tarnwing.bench.now.revision == "r1"


def test_a_trial_of_what_cannot_be_says_so(heron: Browser) -> None:
    """A place that the file could not hold is told in a sentence."""
    answer = heron.post("/try", headers={"origin": ORIGIN}, data={
        "address": "item.rx.at_mm", "old": "[260, 0]", "new": "[99999, 0]", "item": "rx"})  # fmt: skip
    assert answer.status_code == 422
    assert answer.json()["trouble"]
