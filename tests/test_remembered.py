from __future__ import annotations

import json
import os
from pathlib import Path

from hardstand.remembered import FOLDER, KEPT, key_of, recall, remember

FORM = {"format": 1, "findings": [{"text": "Gap −1 mm", "value": 0.1}]}


def test_what_is_remembered_comes_back(tmp_path: Path) -> None:
    """A form is recalled under its key and no other."""
    remember(tmp_path, "a" * 64, FORM)
    assert recall(tmp_path, "a" * 64) == FORM
    assert recall(tmp_path, "b" * 64) is None


def test_the_key_tells_files_options_and_order_apart() -> None:
    """Another text, name, option or order of options is another key; the order of files is not."""
    keys = [
        key_of({"a": "1", "b": "2"}, ()),
        key_of({"a": "2", "b": "1"}, ()),
        key_of({"a": "1"}, ()),
        key_of({"a": "1", "b": "2"}, ("x", "y")),
        key_of({"a": "1", "b": "2"}, ("y", "x")),
        key_of({"ab": "12"}, ()),
        key_of({"a": "1b2"}, ()),
        key_of({"a": "1", "b": "2"}, ("xy",)),
    ]
    assert len(set(keys)) == len(keys)
    assert key_of({"b": "2", "a": "1"}, ()) == keys[0]


def test_an_altered_file_is_not_trusted(tmp_path: Path) -> None:
    """A verdict that was changed by hand is computed again."""
    remember(tmp_path, "a" * 64, FORM)
    file = tmp_path / FOLDER / f"{'a' * 64}.json"
    kept = json.loads(file.read_text())
    kept["form"]["findings"] = []
    file.write_text(json.dumps(kept))
    assert recall(tmp_path, "a" * 64) is None


def test_only_the_latest_are_kept(tmp_path: Path) -> None:
    """The folder does not grow without end, and the latest is there."""
    for number in range(KEPT + 5):
        remember(tmp_path, f"{number:064d}", FORM)
        os.utime(tmp_path / FOLDER / f"{number:064d}.json", (number, number))
    assert len(list((tmp_path / FOLDER).glob("*"))) <= KEPT + 1
    assert recall(tmp_path, f"{KEPT + 4:064d}") == FORM


def test_a_folder_that_cannot_be_written_is_left_alone(tmp_path: Path) -> None:
    """Where a file stands in the way nothing is remembered and nothing fails."""
    (tmp_path / ".hardstand").write_text("in the way")
    remember(tmp_path, "a" * 64, FORM)
    assert recall(tmp_path, "a" * 64) is None
    assert (tmp_path / ".hardstand").read_text() == "in the way"
