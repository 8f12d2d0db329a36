from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.small_aeroplane import TEXT, laid_out, ran

TWO = TEXT + '\n[[option]]\nid = "light"\n[option.set]\n"mass.wing.mass_g" = 700\n'


@pytest.mark.parametrize("columns", [50, 80, 200])
def test_the_page_keeps_to_its_width_and_says_what_differs(
    columns: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Stacked or side by side, with the same words."""
    monkeypatch.setenv("COLUMNS", str(columns))
    status, page, _ = ran("compare", "--in", laid_out(tmp_path / "jet", TWO))
    assert status == 0
    assert max(map(len, page.splitlines())) < columns
    said = " ".join(page.split())
    assert "100 g less mass" in said
    assert "receiver further aft" in said
    assert "Not assessed, so not compared: power" in said
    assert (page.count("aft  ") > 8) == (columns < 200)  # the column is named again on every line


def test_columns_are_those_named(tmp_path: Path) -> None:
    """All options without a name, else those given, together with +."""
    folder = laid_out(tmp_path / "jet", TWO)

    def names(*words: str) -> list[str]:
        return [one["name"] for one in json.loads(ran("compare", *words, "--in", folder, "--json")[1])["columns"]]

    assert names() == ["as described", "aft", "light"]
    assert names("light+aft", "light") == ["as described", "light+aft", "light"]


@pytest.mark.parametrize(
    "words, says",
    [(["lihgt"], "Did you mean light?"), (["aft+no"], "no option no"), (["+"], "No option is named")],
)
def test_a_slip_is_told(words: list[str], says: str, tmp_path: Path) -> None:
    """With the options there are."""
    status, _, err = ran("compare", *words, "--in", laid_out(tmp_path / "jet", TWO))
    assert status == 3
    assert says in err


def test_without_options_there_is_nothing_to_compare(tmp_path: Path) -> None:
    """That is said."""
    folder = laid_out(tmp_path / "jet", TEXT.partition("[[option]]")[0])
    assert "holds no options" in ran("compare", "--in", folder)[2]
