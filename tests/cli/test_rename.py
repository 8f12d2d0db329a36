from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.small_aeroplane import TEXT, laid_out, ran

RENAMED = TEXT.replace('id = "rx"', 'id = "receiver"').replace("item.rx.", "item.receiver.")
ALIAS = '\n[[alias]]\nid = "item.rx"\nnow = "receiver"\n'


def test_a_row_is_renamed_as_one_revision(tmp_path: Path) -> None:
    """Every place is shown with its line and rewritten, and one undo takes all of it back."""
    folder = laid_out(tmp_path / "jet")
    status, out, _ = ran("rename", "item.rx", "receiver", folder)
    assert status == 0
    assert "item.rx → receiver" in out
    assert "option aft, set, item.rx.at_mm" in out
    assert "Written as r2" in out
    assert (folder / "aeroplane.toml").read_text("utf-8") == RENAMED + ALIAS
    ran("undo", folder)
    assert (folder / "aeroplane.toml").read_text("utf-8") == TEXT


def test_findings_of_the_row_are_the_same_as_before(tmp_path: Path) -> None:
    """That a finding is about the new id does not make it another finding."""
    text = TEXT.replace("at_mm = [260, 0]", "at_mm = [395, 0]")
    folder = laid_out(tmp_path / "jet", text)
    before = json.loads(ran("check", folder, "--json")[1])["findings"]
    assert any("rx" in one["about"] for one in before)
    out = ran("rename", "item.rx", "receiver", folder)[1]
    assert "The findings are the same as before." in out
    after = json.loads(ran("check", folder, "--json")[1])["findings"]
    assert any("receiver" in one["about"] for one in after)


def test_look_writes_nothing(tmp_path: Path) -> None:
    """`--look` lists the places and leaves the file alone."""
    folder = laid_out(tmp_path / "jet")
    status, out, _ = ran("rename", "item.rx", "receiver", folder, "--look")
    assert (status, "in 2 places" in out) == (0, True)
    assert (folder / "aeroplane.toml").read_text("utf-8") == TEXT


@pytest.mark.parametrize(
    "words, says",
    [
        (("item.rx", "front"), "already a tray front"),
        (("item.rx", "a b"), "letters, figures"),
        (("item.ry", "a"), "The ids are rx."),
        (("rx", "a"), "Write KIND.ID"),
        (("aeroplane.name", "a"), "stands once"),
    ],
)
def test_what_is_refused(words: tuple[str, str], says: str, tmp_path: Path) -> None:
    """A refusal is one sentence with what to do, and writes nothing."""
    folder = laid_out(tmp_path / "jet")
    status, _, err = ran("rename", *words, folder)
    assert status == 3
    assert says in " ".join(err.split())
    assert (folder / "aeroplane.toml").read_text("utf-8") == TEXT


def test_a_former_id_is_answered_with_the_present_one(tmp_path: Path) -> None:
    """An address by the former id is refused with the present one."""
    folder = laid_out(tmp_path / "jet", RENAMED + ALIAS)
    status, _, err = ran("set", "item.rx.turn_deg", "90", folder)
    assert status == 3
    assert "It is called receiver now." in err
