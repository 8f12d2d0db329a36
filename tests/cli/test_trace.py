from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.small_aeroplane import laid_out, ran


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small aeroplane, laid out once."""
    return laid_out(tmp_path_factory.mktemp("trace") / "jet")


def test_a_figure_leads_to_the_line(folder: Path) -> None:
    """The mass of the wing is found at the line of the file that holds it."""
    form = json.loads(ran("trace", "balance.mass@empty", folder, "--json")[1])
    found = {one["address"]: one for one in form["inputs"]}
    wing = found["mass.wing.mass_g"]
    lines = (folder / "aeroplane.toml").read_text().split("\n")
    assert lines[wing["line"] - 1].startswith("mass_g = 800")
    assert wing["per_unit"] == pytest.approx(1.0)
    assert wing["u_from"] == "tolerance in the file"
    assert "aeroplane.toml:23" in ran("trace", "balance.mass@empty", folder)[1]


def test_a_catalogue_figure_is_called_so(folder: Path) -> None:
    """What stands in no file of the builder's is named as the catalogue's."""
    form = json.loads(ran("trace", "balance.mass@empty", folder, "--json")[1])
    rx = next(one for one in form["inputs"] if one["address"].startswith("item.rx."))
    assert rx["file"] is None
    assert "catalogue part receiver-12-channel" in rx["words"]


def test_shares_add_up(folder: Path) -> None:
    """The inputs' shares and the method's are the whole variance."""
    form = json.loads(ran("trace", "balance.cg@empty", folder, "--json")[1])
    assert sum(one["share"] for one in form["inputs"]) + form["method_share"] == pytest.approx(
        1.0, rel=1e-6
    )


def test_an_input_shows_what_it_moves(folder: Path) -> None:
    """The other way round: an input names the figures that depend on it."""
    form = json.loads(ran("trace", "mass.wing.mass_g", folder, "--json")[1])
    assert "balance.cg@empty" in [one["address"] for one in form["moves"]]
    assert "moves" in ran("trace", "mass.wing.mass_g", folder)[1]


def test_wildcards_list_and_one_match_is_traced(folder: Path) -> None:
    """Several matches are listed, a single one is shown."""
    listed = json.loads(ran("trace", "balance.c*", folder, "--json")[1])["figures"]
    assert len(listed) > 1
    assert "What moves it" in ran("trace", "balance.mass@em*", folder)[1]


def test_a_wrong_address_names_the_nearest(folder: Path) -> None:
    """A slip is answered with the nearest figures, a pattern without a match with how to list them."""
    status, _, err = ran("trace", "balance.mas@empty", folder)
    assert status == 3
    assert "balance.mass@empty" in err
    assert ran("trace", "gear.*", folder)[0] == 3


def test_a_long_list_is_cut_with_a_count(folder: Path) -> None:
    """`--all` shows every input; without it the rest is counted."""
    short, whole = (ran("trace", "balance.cg@empty", folder, *more)[1] for more in ((), ("--all",)))
    if "more with" in short:
        assert len(whole.split("\n")) > len(short.split("\n"))
    assert "--all shows them" not in whole


@pytest.mark.parametrize("stage", ["fit", "balance", "power"])
def test_show_prints_a_stage(stage: str, folder: Path) -> None:
    """Each stage has a page, assessed or not, and JSON of the same."""
    status, out, _ = ran("show", stage, folder)
    assert status == 0
    assert f"Heron: {stage}" in out
    form = json.loads(ran("show", stage, folder, "--json")[1])
    assert form["stage"] == stage
    if stage == "power":
        assert form["state"] == "not assessed"
        assert "Nothing described." in out


def test_show_balance_has_the_states(folder: Path) -> None:
    """Mass and CG of every state stand in the table and on the ruler."""
    out = ran("show", "balance", folder)[1]
    assert "empty" in out
    assert "CG aft of mark" in out
    assert "▲" in out
    assert " in" in ran("show", "balance", folder, "--units", "imperial")[1]
