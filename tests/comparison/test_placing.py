from __future__ import annotations

import json
from pathlib import Path

import pytest

from hardstand.comparison import compare
from hardstand.comparison.placing import placed
from hardstand.placement_value import Request
from hardstand.workspace import Workspace, open_folder
from tests.small_aeroplane import TEXT, laid_out, ran

# The option puts a second receiver into the first; there is room for both.
CLASH = TEXT + """
[[option]]
id = "second"
[[option.add.item]]
id = "rx-2"
part = "receiver-12-channel"
on = "front"
at_mm = [255, 10]
"""
# On a tray of its own size nothing can stand apart.
TIGHT = CLASH.replace("[[100, -60], [400, -60], [400, 60], [100, 60]]",
                      "[[230, -30], [290, -30], [290, 30], [230, 30]]")  # fmt: skip


def no_go(workspace: Workspace) -> list[str]:
    """The codes of what must not fly like this."""
    return [one.code for one in workspace.assess().findings if one.severity == "no-go"]


def test_an_option_is_placed_in_memory_before_it_is_compared(tmp_path: Path) -> None:
    """The clash that it has as described is gone, what moved is told, and the files are as they were."""
    space = open_folder(laid_out(tmp_path / "jet", CLASH))
    assert "fit.box-gap" in no_go(open_folder(tmp_path / "jet", ["second"]))
    found = placed(space, ("second",), Request(work=1), lambda _: None, lambda: False)
    assert "fit.box-gap" not in no_go(found[0])
    assert any(one.startswith("rx") and " at " in one for one in found[1])
    column = compare(space, [("second",)], place={("second",): found}).columns[1]
    assert column.placed == found[1]
    assert "fit.box-gap" not in [one.code for one in column.findings if one.severity == "no-go"]
    assert (tmp_path / "jet" / "aeroplane.toml").read_text(encoding="utf-8") == CLASH


def test_where_nothing_can_be_placed_it_stands_as_described(tmp_path: Path) -> None:
    """And that is said."""
    space = open_folder(laid_out(tmp_path / "jet", TIGHT))
    found = placed(space, ("second",), Request(work=1), lambda _: None, lambda: False)
    assert found[0].texts == space.texts
    assert "no layout" in found[1][0]


def test_the_command_places_and_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """On the page and in the JSON; the description itself stays as it is."""
    folder = laid_out(tmp_path / "jet", CLASH)
    words = ("compare", "second", "--place", "--work", "1", "--in", folder)
    columns = json.loads(ran(*words, "--json")[1])["columns"]
    assert columns[0]["placed"] == []
    assert columns[1]["placed"]
    monkeypatch.setenv("COLUMNS", "80")
    assert "Placed anew: rx" in ran(*words)[1]
