from __future__ import annotations

import errno
import os
import stat
import subprocess
import sys
import threading
from pathlib import Path
from typing import Any

import pytest

from hardstand.description.journal import JOURNAL, Pending, encoded
from hardstand.description.lock import FolderBusyError, FolderLock
from hardstand.description.problems import UnreadableError
from hardstand.description.safe_files import sha256_of
from hardstand.description.storage import (
    ChangedOnDiskError,
    Folder,
    UnfinishedWriteError,
    digest_of,
)

TEXTS = {
    "aeroplane.toml": "format = 1\r\n# é\n",
    "measurements.toml": "",
    "parts/own.toml": "[[part]]\n",
}


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    """A folder with three files, read."""
    made = Folder(tmp_path / "tarnwing")
    made.write(TEXTS)
    return made


def test_texts_go_round_to_the_byte(folder: Folder) -> None:
    """What is written is read again with its newlines, and other files are left out."""
    (folder.path / "parts" / ".own.toml.tmp").write_text("half")
    (folder.path / "notes.toml").write_text("not ours")
    assert Folder(folder.path).texts() == TEXTS
    assert Folder(folder.path / "aeroplane.toml").texts() == TEXTS
    assert folder.digest() == digest_of(TEXTS)
    assert (folder.path / "aeroplane.toml").read_bytes() == TEXTS["aeroplane.toml"].encode()


def test_a_folder_that_is_not_there_has_no_texts(tmp_path: Path) -> None:
    """Reading makes no folder and no file."""
    assert Folder(tmp_path / "nothing").texts() == {}
    assert list(tmp_path.iterdir()) == []


def test_reading_leaves_no_trace(tmp_path: Path) -> None:
    """Reading an aeroplane writes nothing beside it."""
    (tmp_path / "aeroplane.toml").write_text("format = 1\n")
    Folder(tmp_path).texts()
    assert [path.name for path in tmp_path.iterdir()] == ["aeroplane.toml"]


def test_files_come_and_go_together(folder: Folder) -> None:
    """One write may change, add and remove files; no temporary file or journal stays."""
    folder.write({"aeroplane.toml": "a = 1\n", "parts/more.toml": "", "measurements.toml": None})
    found = Folder(folder.path).texts()
    assert set(found) == {"aeroplane.toml", "parts/more.toml", "parts/own.toml"}
    left = {path.name for path in folder.path.rglob("*") if path.is_file()}
    assert left == {"aeroplane.toml", "more.toml", "own.toml", "lock"}
    assert folder.digest() == digest_of(found)


def test_a_byte_order_mark_stays_in_the_file(tmp_path: Path) -> None:
    """An editor's byte order mark is not part of the text and not lost by writing."""
    (tmp_path / "aeroplane.toml").write_bytes(b"\xef\xbb\xbfformat = 1\n")
    folder = Folder(tmp_path)
    assert folder.texts() == {"aeroplane.toml": "format = 1\n"}
    folder.write({"aeroplane.toml": "format = 1\n\n"})
    assert (tmp_path / "aeroplane.toml").read_bytes() == b"\xef\xbb\xbfformat = 1\n\n"


def test_what_changed_on_the_disk_is_not_overwritten(folder: Folder) -> None:
    """A file edited, removed or made since it was read is left alone, and so are all others."""
    folder.texts()
    (folder.path / "parts" / "own.toml").write_text("mine\n")
    (folder.path / "measurements.toml").unlink()
    (folder.path / "parts" / "new.toml").write_text("new\n")
    new = {"aeroplane.toml": "x", "parts/own.toml": "x", "measurements.toml": "x"}
    with pytest.raises(ChangedOnDiskError, match="changed since it was read") as caught:
        folder.write({**new, "parts/new.toml": "x"})
    assert caught.value.names == ("measurements.toml", "parts/new.toml", "parts/own.toml")
    assert (folder.path / "aeroplane.toml").read_bytes() == TEXTS["aeroplane.toml"].encode()
    with pytest.raises(ChangedOnDiskError):
        Folder(folder.path).write({"aeroplane.toml": "never read\n"})
    folder.texts()
    folder.write(new)
    assert folder.texts()["parts/own.toml"] == "x"


@pytest.mark.parametrize(
    "name",
    ["../aeroplane.toml", "notes.toml", "parts/../x.toml", "parts/.x.toml", "/a.toml", "a\0b"],
)
def test_no_other_file_is_written(folder: Folder, name: str) -> None:
    """Names outside the set are refused, whoever asks."""
    with pytest.raises(ValueError, match="not a file of an aeroplane's folder"):
        folder.write({name: "x"})


def test_files_that_cannot_be_read_are_all_named(folder: Folder) -> None:
    """Files in another encoding are reported together, with line and bytes."""
    (folder.path / "aeroplane.toml").write_bytes(b"format = 1\nname = '\xe9t\xe9'\n")
    (folder.path / "parts" / "own.toml").write_bytes(b"\xff\xfe[\0")
    with pytest.raises(UnreadableError) as caught:
        Folder(folder.path).texts()
    seen = [(one.file, one.line, one.found) for one in caught.value.problems]
    assert seen == [("aeroplane.toml", 2, r"\xe9"), ("parts/own.toml", 1, r"\xff")]


def test_a_folder_in_place_of_a_file_is_a_problem(tmp_path: Path) -> None:
    """What can't be opened is a located problem, not a crash."""
    (tmp_path / "aeroplane.toml").mkdir()
    with pytest.raises(UnreadableError) as caught:
        Folder(tmp_path).texts()
    assert "can't be read" in caught.value.problems[0].what


@pytest.mark.skipif(os.name == "nt", reason="Windows has other permissions and links")
def test_permissions_and_links_are_kept(folder: Folder, tmp_path: Path) -> None:
    """A file keeps its mode, and a link stays a link to the file that is written."""
    target = tmp_path / "elsewhere.toml"
    target.write_text("a = 1\n")
    target.chmod(0o640)
    (folder.path / "parts" / "linked.toml").symlink_to(target)
    folder.texts()
    folder.write({"parts/linked.toml": "a = 2\n"})
    assert (folder.path / "parts" / "linked.toml").is_symlink()
    assert target.read_text() == "a = 2\n"
    assert stat.S_IMODE(target.stat().st_mode) == 0o640


@pytest.mark.parametrize("new", [{"aeroplane.toml": "x" * 9000}, dict.fromkeys(TEXTS, "x" * 9000)])
@pytest.mark.parametrize("fails_at", [1, 2, 3, 4])
def test_a_full_disk_changes_nothing(
    folder: Folder, monkeypatch: pytest.MonkeyPatch, new: dict[str, str], fails_at: int
) -> None:
    """Where the disk is full, half-way or from the start, the old texts stay and no litter."""
    real, made = os.write, 0

    def full(descriptor: int, data: Any) -> int:
        nonlocal made
        made += 1
        if made >= fails_at:
            raise OSError(errno.ENOSPC, "No space left on device")
        return real(descriptor, bytes(data)[: len(data) // 2])

    folder.texts()
    monkeypatch.setattr(os, "write", full)
    with pytest.raises(OSError, match="No space left"):
        folder.write(new)
    monkeypatch.undo()
    assert Folder(folder.path).texts() == TEXTS
    assert not list(folder.path.rglob("*.tmp"))
    folder.write(new)
    assert Folder(folder.path).texts() == {**TEXTS, **new}


def test_a_refusal_after_the_decision_is_made_good(
    folder: Folder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the second of several files can't take its place, the next opening finishes it."""
    real, made = os.replace, 0

    def refusing(*names: Any) -> None:
        nonlocal made
        made += 1
        if made == 3:  # the journal, the first file, this
            raise OSError(errno.EIO, "Input/output error")
        real(*names)

    new = dict.fromkeys(TEXTS, "new = 1\n")
    folder.texts()
    monkeypatch.setattr(os, "replace", refusing)
    with pytest.raises(UnfinishedWriteError, match="finished when the folder is opened again"):
        folder.write(new)
    monkeypatch.undo()
    assert Folder(folder.path).texts() == new
    assert not (folder.state / JOURNAL).exists()


def _leave_journal(folder: Folder, new: dict[str, str]) -> None:
    files = {name: Pending(sha256_of(TEXTS[name].encode()), text.encode())
             for name, text in new.items()}  # fmt: skip
    (folder.state / JOURNAL).write_bytes(encoded(files))


def test_a_later_edit_is_stronger_than_a_journal(folder: Folder) -> None:
    """A file that someone edited after a crash keeps that edit when the write is finished."""
    _leave_journal(folder, {"aeroplane.toml": "new\n", "parts/own.toml": "new\n"})
    (folder.path / "parts" / "own.toml").write_text("by hand\n")
    found = Folder(folder.path).texts()
    assert found["aeroplane.toml"] == "new\n"
    assert found["parts/own.toml"] == "by hand\n"


def test_a_damaged_journal_is_set_aside(folder: Folder) -> None:
    """A journal that is not whole changes nothing and does not stand in the way."""
    _leave_journal(folder, {"aeroplane.toml": "new\n"})
    whole = (folder.state / JOURNAL).read_bytes()
    (folder.state / JOURNAL).write_bytes(whole[:-5])
    assert Folder(folder.path).texts() == TEXTS
    assert not (folder.state / JOURNAL).exists()
    folder.write({"aeroplane.toml": "more\n"})


def test_a_journal_counts_even_where_it_cannot_be_finished(
    folder: Folder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where this process may not write, the set that was decided is read all the same."""
    _leave_journal(folder, {"aeroplane.toml": "new\n", "parts/own.toml": "new\n"})

    def refused(*_: Any) -> None:
        raise PermissionError

    monkeypatch.setattr(Folder, "locked", refused)
    found = Folder(folder.path).texts()
    assert found == {**TEXTS, "aeroplane.toml": "new\n", "parts/own.toml": "new\n"}


def test_a_file_in_place_of_the_state_folder_is_set_aside(tmp_path: Path) -> None:
    """A stray file named like the program's folder does not stop a write."""
    (tmp_path / ".hardstand").write_text("stray")
    folder = Folder(tmp_path)
    folder.write({"aeroplane.toml": "a = 1\n"})
    assert (tmp_path / ".hardstand-set-aside").read_text() == "stray"


def test_one_writer_at_a_time(tmp_path: Path) -> None:
    """The holder may enter again; another holder waits, and gives up with a clear message."""
    lock, other = FolderLock(tmp_path / "lock"), FolderLock(tmp_path / "lock", wait_s=0.05)
    with lock, lock:
        with pytest.raises(FolderBusyError, match="another program is writing"), other:
            pass
        refused: list[FolderBusyError] = []

        def try_it() -> None:
            lock._wait_s = 0.05
            try:
                with lock:
                    pass
            except FolderBusyError as error:
                refused.append(error)

        thread = threading.Thread(target=try_it)
        thread.start()
        thread.join()
        assert "another part of the program" in str(refused[0])
    with other:
        pass


def test_a_dead_writer_holds_no_lock(tmp_path: Path) -> None:
    """A lock goes with the process that held it, however that ends."""
    code = (
        "import os, sys; from pathlib import Path; from hardstand.description.lock import FolderLock\n"
        "FolderLock(Path(sys.argv[1])).__enter__(); os._exit(3)"
    )
    src = str(Path(__file__).parents[2] / "src")
    environment = {**os.environ, "PYTHONPATH": src}
    path = tmp_path / "lock"
    ended = subprocess.run([sys.executable, "-c", code, str(path)], env=environment, check=False)
    assert ended.returncode == 3
    with FolderLock(path, wait_s=0.0):
        pass


def test_readers_never_see_a_mixture(folder: Folder) -> None:
    """While one thread writes sets of files, another reads only whole sets."""
    ended = threading.Event()

    def write() -> None:
        writer = Folder(folder.path)
        writer.texts()
        for number in range(40):
            writer.write(dict.fromkeys(TEXTS, f"number = {number}\n"))
        ended.set()

    thread = threading.Thread(target=write)
    thread.start()
    reads = 0
    while not ended.is_set():
        found = Folder(folder.path).texts()
        assert len(set(found.values())) == 1 or found == TEXTS
        reads += 1
    thread.join()
    assert reads > 0
