from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

import hardstand.cli.edit
from hardstand.cli.edit import chosen_finding
from hardstand.cli.refusal import Refusal
from tests.small_aeroplane import TEXT, laid_out, ran


def text_in(folder: Path) -> str:
    """The aeroplane's file as it is now."""
    return (folder / "aeroplane.toml").read_text(encoding="utf-8")


def test_set_changes_one_value_and_keeps_the_rest(tmp_path: Path) -> None:
    """Only the value is replaced: comments and layout stay, and the page shows old, new and line."""
    folder = laid_out(tmp_path / "jet")
    status, out, _ = ran("set", "mass.wing.mass_g", "900", folder)
    assert status == 0
    assert text_in(folder) == TEXT.replace("mass_g = 800", "mass_g = 900")
    assert "aeroplane.toml:23" in out
    assert "800 → 900" in out
    assert "was" in out
    assert "now" in out


@pytest.mark.parametrize(
    "value, written", [("14.5 oz", '"14.5 oz"'), ("[1, 2, 3]", None), ("-", None)]
)
def test_set_writes_what_the_file_can_hold(value: str, written: str | None, tmp_path: Path) -> None:
    """Text with a unit is written as text; a value of the wrong form, or none where one is needed, is refused."""
    folder = laid_out(tmp_path / "jet")
    status, _, err = ran("set", "mass.wing.mass_g", "--", value, folder)
    if written:
        assert status == 0
        assert f"mass_g = {written}" in text_in(folder)
    else:
        assert status == 2
        assert "Nothing was changed" in err
        assert text_in(folder) == TEXT


def test_set_can_take_a_field_out(tmp_path: Path) -> None:
    """A hyphen takes an optional field out of the file."""
    folder = laid_out(tmp_path / "jet")
    assert ran("set", "mass.wing.mass_tol_g", "--", "-", folder)[0] == 0
    assert "mass_tol_g" not in text_in(folder)


@pytest.mark.parametrize(
    "address, hint",
    [
        ("mass.wng.mass_g", "Did you mean wing?"),
        ("mas.wing.mass_g", "mass"),
        ("mass.wing.mass_kg", "mass_g"),
        ("mass.wing.at_mm.x", "mass.wing.at_mm"),
        ("mass.mass_g", "shell, wing"),
        ("balance.cg@empty", "computed figure"),
        ("cg_mark.x.name", "cg_mark.name"),
        ("mass.wing.id", "Rename it"),
        ("nonsense", "kind.id.field"),
    ],
)
def test_a_wrong_address_names_the_right_one(address: str, hint: str, tmp_path: Path) -> None:
    """The word that is wrong is answered with the nearest right one, and nothing is written."""
    folder = laid_out(tmp_path / "jet")
    status, _, err = ran("set", address, "1", folder)
    assert status == 3
    assert hint in " ".join(err.split())
    assert text_in(folder) == TEXT


def test_look_writes_nothing(tmp_path: Path) -> None:
    """`--look` shows the change and leaves the files alone."""
    folder = laid_out(tmp_path / "jet")
    status, out, _ = ran("set", "mass.wing.mass_g", "900", folder, "--look")
    assert status == 0
    assert "800 → 900" in out
    assert text_in(folder) == TEXT


def test_with_an_option_the_change_goes_to_it(tmp_path: Path) -> None:
    """The option keeps its own value; the base stays."""
    folder = laid_out(tmp_path / "jet")
    assert ran("set", "item.rx.at_mm", "[310, 0]", folder, "--option", "aft")[0] == 0
    assert text_in(folder) == TEXT.replace(
        '"item.rx.at_mm" = [300, 0]', '"item.rx.at_mm" = [310, 0]'
    )


def finding(code: str, changes: list[dict[str, Any]]) -> dict[str, Any]:
    """A finding's form with a remedy."""
    return {
        "code": code,
        "severity": "caution",
        "about": ["rx"],
        "text": "Too close.",
        "figure": None,
        "limit": None,
        "accepted": None,
        "remedy": {"text": "Move it aft.", "effects": ["The gap is 9 mm."], "changes": changes},
    }


def remedied(monkeypatch: pytest.MonkeyPatch, change: dict[str, Any]) -> None:
    """Makes every assessment say one finding with a remedy of one change."""
    form = {
        "format": 1,
        "aeroplane": "Heron",
        "options": [],
        "stages": {},
        "notice": "",
        "counts": {"no-go": 0, "measure": 0, "caution": 1, "note": 0},
        "findings": [finding("fit.box-gap", [change])],
    }
    monkeypatch.setattr(hardstand.cli.edit, "assessed", lambda *_, **__: form)


MOVE = {"address": "item.rx.at_mm", "old": [260, 0], "new": [280, 0]}


@pytest.mark.parametrize("wanted", ["1", "fit.box-gap"])
def test_apply_makes_the_remedy(
    wanted: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The remedy's change is shown and made, by number or by code."""
    folder = laid_out(tmp_path / "jet")
    remedied(monkeypatch, MOVE)
    status, out, err = ran("apply", wanted, folder)
    assert status == 0
    assert "[260, 0] → [280, 0]" in out
    assert "Move it aft." in err
    assert "The gap is 9 mm." in err
    assert text_in(folder) == TEXT.replace("at_mm = [260, 0]", "at_mm = [280, 0]")


def test_apply_refuses_what_no_longer_holds(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A remedy made for another value than stands there changes nothing and says both."""
    folder = laid_out(tmp_path / "jet")
    remedied(monkeypatch, {**MOVE, "old": [250, 0]})
    status, _, err = ran("apply", "1", folder)
    assert status == 2
    assert "250" in err
    assert "260" in err
    assert text_in(folder) == TEXT


def test_apply_names_what_there_is() -> None:
    """A wrong number or code, or one that stands more than once, is refused with what there is."""
    findings = [
        finding("fit.box-gap", []),
        finding("fit.box-gap", []),
        finding("fit.tray-edge", []),
    ]
    assert chosen_finding(findings, "3")["code"] == "fit.tray-edge"
    wrong = {
        "4": "no finding 4",
        "0": "no finding 0",
        "fit.box-gap": "2 times",
        "fit.x": "No finding",
    }
    for wanted, what in wrong.items():
        with pytest.raises(Refusal, match=what):
            chosen_finding(findings, wanted)


def test_undo_redo_and_history(tmp_path: Path) -> None:
    """Undo and redo go back and forth over whole texts, and the history lists each step."""
    folder = laid_out(tmp_path / "jet")
    ran("set", "mass.wing.mass_g", "900", folder)
    assert ran("undo", folder)[0] == 0
    assert text_in(folder) == TEXT
    assert ran("redo", folder)[0] == 0
    assert "mass_g = 900" in text_in(folder)
    names = [one["name"] for one in json.loads(ran("history", folder, "--json")[1])["revisions"]]
    assert names == ["r1", "r2", "r3", "r4"]
    assert "r2" in ran("history", folder)[1]
    assert "nothing to redo" in ran("redo", folder)[2]
