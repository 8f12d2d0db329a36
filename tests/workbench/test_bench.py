"""The aeroplane on the bench: one value that pages show, and edits one after the other."""

from __future__ import annotations

from pathlib import Path
from threading import Thread
from typing import Any

import pytest

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment, Memory, assess
from hardstand.changes import Change
from hardstand.description.problems import UnreadableError
from hardstand.description.storage import Folder
from hardstand.workbench.bench import Bench, Unread
from hardstand.workbench.turns import SupersededError
from tests.small_aeroplane import TEXT, laid_out


def move(x_mm: float, old_mm: float = 260.0) -> Change:
    """The receiver moved along its tray."""
    return Change("item.rx.at_mm", [old_mm, 0], [x_mm, 0])


def test_a_trial_leaves_everything_as_it_is(tmp_path: Path) -> None:
    """What is tried is told, and neither the disk nor what is shown has it."""
    bench = Bench(Folder(laid_out(tmp_path / "heron")))
    before = bench.now
    tried = bench.tried([move(300.0)])
    assert tried.workspace.value_at("item.rx.at_mm") == [300.0, 0]
    assert bench.now is before
    assert (tmp_path / "heron" / "aeroplane.toml").read_text(encoding="utf-8") == TEXT


def test_a_trial_gives_way_to_a_change(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A drag is let go while its last place is still being worked out: the change is not kept waiting."""
    bench = Bench(Folder(laid_out(tmp_path / "heron")))
    writers: list[Thread] = []

    def halfway(asbuilt: AsBuilt, stages: Any, memory: Memory, progress: Any) -> Assessment:
        """Let a change come when a trial's second node is about to run."""
        seen: list[str] = []

        def told(node: str) -> None:
            seen.append(node)
            if len(seen) == 2 and not writers:
                writers.append(Thread(target=bench.change, args=([move(320.0)], "let go")))
                writers[0].start()
                while not bench._turns._waiting:
                    pass
            progress(node)

        return assess(asbuilt, stages, memory, told if progress else None)

    monkeypatch.setattr("hardstand.workbench.bench.assess", halfway)
    with pytest.raises(SupersededError):
        bench.tried([move(300.0)])
    writers[0].join(60.0)
    assert bench.held().workspace.value_at("item.rx.at_mm") == [320.0, 0]


def test_what_was_tried_last_is_not_read_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A drag ends where it was tried: what was read then is written and shown, and right."""
    folder = laid_out(tmp_path / "heron")
    bench = Bench(Folder(folder))
    bench.tried([move(300.0)])

    def never(*_: object) -> None:
        raise AssertionError("read again")

    monkeypatch.setattr("hardstand.workbench.bench.opened", never)
    bench.change([move(300.0)], "moved")
    monkeypatch.undo()
    assert bench.held().form == Bench(Folder(folder)).held().form


def test_what_was_tried_is_what_is_shown(tmp_path: Path) -> None:
    """After a change the bench shows exactly what a new bench reads from the disk."""
    folder = laid_out(tmp_path / "heron")
    bench = Bench(Folder(folder))
    bench.change([move(300.0)], "moved")
    anew = Bench(Folder(folder))
    assert bench.held().form == anew.held().form
    assert bench.held().digest == anew.held().digest


def test_a_change_that_cannot_be_read_is_not_written(tmp_path: Path) -> None:
    """A value out of its bounds is refused, and the file stays."""
    bench = Bench(Folder(laid_out(tmp_path / "heron")))
    with pytest.raises(UnreadableError):
        bench.change([move(99_999.0)], "moved")
    assert bench.now.revision == "r1"


def test_with_an_option_the_change_goes_to_the_option(tmp_path: Path) -> None:
    """An option that owns the address takes the new value; the base stays."""
    folder = laid_out(tmp_path / "heron")
    bench = Bench(Folder(folder), ("aft",))
    bench.change([move(310.0, 300.0)], "moved")
    text = (folder / "aeroplane.toml").read_text(encoding="utf-8")
    assert '"item.rx.at_mm" = [310, 0]' in text
    assert "at_mm = [260, 0]" in text


def test_an_outside_edit_is_seen_once(tmp_path: Path) -> None:
    """An edit from elsewhere is read and becomes a revision; looking again finds nothing new."""
    folder = laid_out(tmp_path / "heron")
    bench = Bench(Folder(folder))
    laid_out(folder, TEXT.replace("Heron", "Egret"))
    assert bench.refresh()
    assert not bench.refresh()
    assert bench.held().form["aeroplane"] == "Egret"
    assert bench.now.revision == "r2"


def test_a_broken_file_is_shown_and_mended(tmp_path: Path) -> None:
    """A file that cannot be read is shown with its problems until it can; undo also mends it."""
    folder = laid_out(tmp_path / "heron")
    bench = Bench(Folder(folder))
    laid_out(folder, TEXT.replace('name = "Heron"', "name = "))
    bench.refresh()
    assert isinstance(bench.now, Unread)
    assert bench.now.problems
    bench.step(back=True)
    assert bench.held().form["aeroplane"] == "Heron"


def test_edits_at_once_are_made_one_after_the_other(tmp_path: Path) -> None:
    """Of many edits of one value at once exactly one is made; the others are told that they are stale."""
    bench = Bench(Folder(laid_out(tmp_path / "heron")))
    made: list[float] = []

    def edit(x_mm: float) -> None:
        try:
            bench.change([move(x_mm)], "moved")
        except ValueError:
            return
        made.append(x_mm)

    threads = [Thread(target=edit, args=(270.0 + k,)) for k in range(6)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert len(made) == 1
    assert bench.held().workspace.value_at("item.rx.at_mm") == [made[0], 0]
    assert bench.now.revision == "r2"
