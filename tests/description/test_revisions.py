from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from hardstand.changes import AddRow, Change
from hardstand.description.history_store import HistoryStore
from hardstand.description.revisions import (
    NothingToUndoError,
    edit,
    history,
    record,
    redo,
    undo,
)
from hardstand.description.storage import Folder, digest_of
from hardstand.description.write import StaleChange

START = "[[item]]\nid = 'a'\nturn_deg = 0\n"


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    """A folder with one item, laid out and recorded."""
    made = Folder(tmp_path / "tarnwing")
    made.write({"aeroplane.toml": START})
    record(made, "laid out", "builder")
    return made


def _turn(folder: Folder, old: int, new: int) -> None:
    edit(folder, [Change("item.a.turn_deg", old, new)], f"turn to {new}", "builder")


def _main(folder: Folder) -> str:
    return Folder(folder.path).texts()["aeroplane.toml"]


def test_an_edit_is_a_revision(folder: Folder) -> None:
    """An edit has a number, the digest of the set, and who, why and when."""
    _turn(folder, 0, 90)
    first, second = history(folder)
    assert (first.name, second.name) == ("r1", "r2")
    assert (second.who, second.why) == ("builder", "turn to 90")
    assert second.when.endswith("+00:00")
    assert second.sha256 == folder.digest() == digest_of({"aeroplane.toml": _main(folder)})
    assert HistoryStore(folder.state / "history").texts(first) == {"aeroplane.toml": START}


def test_undo_and_redo_walk_the_edits(folder: Folder) -> None:
    """Undo goes back edit by edit to the start, redo forward again, each as a new revision."""
    states = [_main(folder)]
    for old, new in ((0, 90), (90, 180), (180, 270)):
        _turn(folder, old, new)
        states.append(_main(folder))
    for state in reversed(states[:-1]):
        undo(folder)
        assert _main(folder) == state
    with pytest.raises(NothingToUndoError, match="nothing to undo"):
        undo(folder)
    for state in states[1:]:
        redo(folder)
        assert _main(folder) == state
    with pytest.raises(NothingToUndoError, match="nothing to redo"):
        redo(folder)
    undo(folder)
    assert [one.number for one in history(folder)] == list(range(1, 12))
    assert history(folder)[-1].why == "undo: turn to 270"
    assert history(folder)[-1].of == 3


def test_a_fresh_edit_drops_redo(folder: Folder) -> None:
    """After an undo, an edit begins a new future, and undo leads back past it."""
    _turn(folder, 0, 90)
    undo(folder)
    _turn(folder, 0, 180)
    with pytest.raises(NothingToUndoError):
        redo(folder)
    undo(folder)
    assert _main(folder) == START


def test_outside_edits_become_revisions_when_seen(folder: Folder) -> None:
    """An edit in a text editor is recorded on the next edit or undo, and can be undone."""
    (folder.path / "aeroplane.toml").write_text(START + "# by hand\n")
    _turn(folder, 0, 90)
    assert [one.why for one in history(folder)][1:] == ["edited outside the program", "turn to 90"]
    (folder.path / "aeroplane.toml").write_text("broken [\n")
    undo(folder)
    assert _main(folder) == START.replace("= 0", "= 90") + "# by hand\n"
    redo(folder)
    assert _main(folder) == "broken [\n"


def test_seeing_the_same_again_is_no_revision(folder: Folder) -> None:
    """Recording what is already the latest revision adds nothing."""
    again = record(folder)
    assert again.revision == history(folder)[-1]
    assert len(history(folder)) == 1


def test_undo_removes_and_restores_files(folder: Folder) -> None:
    """Undo covers the whole set: a file that an edit made goes, and redo brings it back."""
    edit(folder, [AddRow("part", {"id": "p"})], "own part")
    assert "parts/own.toml" in Folder(folder.path).texts()
    undo(folder)
    assert Folder(folder.path).texts() == {"aeroplane.toml": START}
    redo(folder)
    assert Folder(folder.path).texts()["parts/own.toml"] == '[[part]]\nid = "p"\n'


def test_a_refused_edit_leaves_no_revision(folder: Folder) -> None:
    """A stale change writes nothing and records nothing."""
    with pytest.raises(StaleChange):
        _turn(folder, 45, 90)
    assert len(history(folder)) == 1
    assert _main(folder) == START


def _garbage(history_path: Path) -> None:
    (history_path / "index").write_bytes(b"\xff\x00 not a line\n{}\n" * 3)


def _cut(history_path: Path) -> None:
    index = history_path / "index"
    index.write_bytes(index.read_bytes()[:-20])


def _flip(history_path: Path) -> None:
    for place in (history_path / "texts").iterdir():
        place.write_bytes(place.read_bytes()[::-1])


def _file(history_path: Path) -> None:
    shutil.rmtree(history_path)
    history_path.write_text("not a folder")


def _index_folder(history_path: Path) -> None:
    (history_path / "index").unlink()
    (history_path / "index").mkdir()


@pytest.mark.parametrize("damage", [shutil.rmtree, _garbage, _cut, _flip, _file, _index_folder])
def test_a_damaged_history_stops_nothing(folder: Folder, damage: Callable[[Path], None]) -> None:
    """Whatever happens to the history, the aeroplane is read, edited and recorded as can be."""
    _turn(folder, 0, 90)
    damage(folder.state / "history")
    assert "90" in _main(folder)
    assert isinstance(history(folder), list)
    _turn(folder, 90, 180)
    assert "180" in _main(folder)
    try:
        undo(folder)
    except NothingToUndoError:
        assert "180" in _main(folder)
    else:
        assert "90" in _main(folder)


def test_trouble_with_the_history_is_told(folder: Folder) -> None:
    """Where no revision can be kept, the edit stands and the reason is given; undo is refused."""
    _file(folder.state / "history")
    done = edit(folder, [Change("item.a.turn_deg", 0, 90)], "turn")
    assert done.revision is None
    assert done.trouble
    assert "90" in _main(folder)
    with pytest.raises(NothingToUndoError, match="can't be written"):
        undo(folder)


def test_a_line_cut_off_does_not_swallow_the_next(folder: Folder) -> None:
    """After a crash in the middle of a line of the index the next revision is still found."""
    index = folder.state / "history" / "index"
    index.write_bytes(index.read_bytes() + b"0123 half a li")
    _turn(folder, 0, 90)
    assert [one.number for one in history(folder)] == [1, 2]


class Walk(RuleBasedStateMachine):
    """Edits, outside edits, undo and redo in any order, against two plain stacks."""

    def __init__(self) -> None:
        super().__init__()
        import tempfile

        self.place = tempfile.TemporaryDirectory()
        self.folder = Folder(Path(self.place.name) / "a")
        self.folder.write({"aeroplane.toml": START})
        record(self.folder)
        self.done, self.undone = [START], list[str]()

    def teardown(self) -> None:
        """Remove the folder."""
        self.place.cleanup()

    def _was_edited(self, text: str) -> None:
        if text != self.done[-1]:
            self.done.append(text)
            self.undone.clear()

    @rule(value=st.integers(0, 3), is_outside=st.booleans())
    def edited(self, value: int, *, is_outside: bool) -> None:
        """Set the turn, through the program or in the file."""
        text = f"[[item]]\nid = 'a'\nturn_deg = {value}\n"
        if is_outside:
            (self.folder.path / "aeroplane.toml").write_text(text)
            record(self.folder)
        else:
            now = self.done[-1].split(" = ")[-1]
            edit(self.folder, [Change("item.a.turn_deg", int(now), value)], "set")
        self._was_edited(text)

    @rule()
    def undone_once(self) -> None:
        """Undo, or be told that there is nothing to undo."""
        if len(self.done) == 1:
            with pytest.raises(NothingToUndoError):
                undo(self.folder)
        else:
            undo(self.folder)
            self.undone.append(self.done.pop())

    @rule()
    def redone_once(self) -> None:
        """Redo, or be told that there is nothing to redo."""
        if not self.undone:
            with pytest.raises(NothingToUndoError):
                redo(self.folder)
        else:
            redo(self.folder)
            self.done.append(self.undone.pop())

    @invariant()
    def holds(self) -> None:
        """The file is what the stacks say, and the latest revision is the file."""
        assert _main(self.folder) == self.done[-1]
        assert history(self.folder)[-1].sha256 == self.folder.digest()


TestWalk = Walk.TestCase
TestWalk.settings = settings(max_examples=15, stateful_step_count=20, deadline=None)
