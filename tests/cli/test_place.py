from __future__ import annotations

import json
import signal
from pathlib import Path

from hardstand.cli.interrupted import interruptible
from tests.small_aeroplane import laid_out, ran
from tests.small_placement import TEXT, tight


def test_the_page_says_cost_bound_places_and_check(tmp_path: Path) -> None:
    """A person reads what it costs now and then, where each item goes, and what stops it."""
    folder = laid_out(tmp_path / "jet", TEXT)
    status, out, err = ran("place", folder, "--work", "1")
    assert status == 0
    for words in ("as thin lead", "Layout 1", "hub", "Checked in three dimensions", "proven"):
        assert words in out
    assert "Nothing was written" in err
    assert (folder / "aeroplane.toml").read_text(encoding="utf-8") == TEXT


def test_a_layout_is_written_as_one_revision_that_undo_takes_back(tmp_path: Path) -> None:
    """--write changes the file through the usual way, and undo brings the old text back."""
    folder = laid_out(tmp_path / "jet", TEXT)
    status, out, _ = ran("place", folder, "--work", "1", "--free", "hub", "--write")
    assert status == 0
    assert "item.hub.at_mm" in out
    assert (folder / "aeroplane.toml").read_text(encoding="utf-8") != TEXT
    assert ran("undo", folder)[0] == 0
    assert (folder / "aeroplane.toml").read_text(encoding="utf-8") == TEXT


def test_a_written_layout_is_told_as_data_too(tmp_path: Path) -> None:
    """With --json the changes, the revision and the whole placement come in one object."""
    folder = laid_out(tmp_path / "jet", TEXT)
    form = json.loads(ran("place", folder, "--work", "1", "--write", "--json")[1])
    assert form["changes"] == form["placement"]["layouts"][0]["changes"]
    assert form["revision"].startswith("r")


def test_no_layout_says_what_contradicts(tmp_path: Path) -> None:
    """Exit status 1 and the requirements in words where there is no layout."""
    folder = laid_out(tmp_path / "jet", tight(64))
    status, out, _ = ran("place", folder, "--work", "1", "--write")
    assert status == 1
    assert "These cannot all be had" in out
    assert "Shelf (shelf) 1 mm longer" in out
    assert (folder / "aeroplane.toml").read_text(encoding="utf-8") == tight(64)


def test_an_item_that_cannot_move_is_refused(tmp_path: Path) -> None:
    """A name that is none, or an item off the trays, is refused with the reason."""
    folder = laid_out(tmp_path / "jet", TEXT)
    status, _, err = ran("place", folder, "--free", "hubb")
    assert status == 3
    assert "Did you mean hub?" in err
    assert "stands on no tray" in ran("place", folder, "--free", "sink")[2]


def test_the_first_interrupt_asks_for_an_end() -> None:
    """Ctrl-C within the search only sets the wish to stop, and the old way is back after it."""
    before = signal.getsignal(signal.SIGINT)
    with interruptible() as stopped:
        assert not stopped()
        signal.raise_signal(signal.SIGINT)
        assert stopped()
    assert signal.getsignal(signal.SIGINT) is before
