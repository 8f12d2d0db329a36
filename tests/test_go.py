"""`go.py`: what it says, what it decides, and in which order it does it. Nothing is installed here."""

from __future__ import annotations

import ast
import dataclasses
import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

import go

HERE = Path(go.__file__)
WANT = go.State(place="here", pins="a", extras=("lint", "test"), complete=True)
GO = str(HERE)


@pytest.fixture
def checkout(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A checkout of its own in a path with a space, with an environment still to be made."""
    root = tmp_path / "my jets"
    root.mkdir()
    for name in ("pyproject.toml", "constraints.txt"):
        (root / name).write_bytes((HERE.parent / name).read_bytes())
    monkeypatch.setattr(go, "ROOT", root)
    monkeypatch.setattr(go, "VENV", root / ".venv")
    monkeypatch.setattr(go, "MARK", root / ".venv" / "made-by-go.json")
    return root


class Steps:
    """Stands in for `go.step`: notes every step, and lets those fail that contain a given word."""

    def __init__(self, *failing: str) -> None:
        self.failing = failing
        self.taken: list[str] = []

    def __call__(self, *words: str | Path, silent: bool = False) -> bool:
        """Note the step; False where it is one of those that fail."""
        self.taken.append(" ".join(str(word) for word in words))
        return not any(word in self.taken[-1] for word in self.failing)


def test_python_3_6_can_read_the_file() -> None:
    """The syntax is old enough that a Python without f-string extras and unions still parses it."""
    ast.parse(HERE.read_text(encoding="utf-8"), feature_version=(3, 6))


def test_an_old_python_gets_a_sentence() -> None:
    """Run by a Python that says it is 3.9, the script ends with what to do, and no traceback."""
    fake = (
        f"import runpy, sys; sys.version_info = (3, 9, 2); runpy.run_path({GO!r}, run_name='old')"
    )
    done = subprocess.run([sys.executable, "-c", fake], capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert done.stderr.startswith("go.py: hardstand needs Python 3.11 or later, and this is Python")
    assert "Traceback" not in done.stderr
    assert done.stdout == ""


def test_an_old_python_points_to_a_newer_one() -> None:
    """Where a newer Python is on the path it is named, else where to get one on each system."""
    assert go.too_old("3.9.2", "python3.12").endswith("Say: python3.12 go.py")
    advice = go.too_old("3.9.2", "")
    assert all(word in advice for word in ("Debian", "Fedora", "macOS", "Windows"))


def test_a_python_without_venv_gets_advice(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the venv module, and no way to install it, the script says what to install."""
    monkeypatch.setattr(go, "step", Steps("ensurepip"))
    monkeypatch.setattr(shutil, "which", lambda name: None)
    with pytest.raises(SystemExit) as end:
        go.need_venv()
    assert f"sudo apt install python{go.VERSION}-venv" in str(end.value)
    assert all(word in str(end.value) for word in ("Fedora", "macOS", "Windows"))


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="this system has no root user")
@pytest.mark.parametrize("user, installs", [(0, True), (1000, False)])
def test_only_root_installs(monkeypatch: pytest.MonkeyPatch, user: int, installs: bool) -> None:
    """Root on Debian gets the venv package installed; anyone else is only told."""
    steps = Steps("ensurepip")
    monkeypatch.setattr(go, "step", steps)
    monkeypatch.setattr(shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(os, "geteuid", lambda: user)
    with pytest.raises(SystemExit):
        go.need_venv()
    assert any("apt-get -y" in taken for taken in steps.taken) is installs


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="this system has no root user")
@pytest.mark.parametrize("user, there, installs", [(0, "", True), (1000, "", False), (0, "ngspice", False)])
def test_the_simulator_is_installed_or_said_to_be_missing(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    user: int,
    there: str,
    installs: bool,
) -> None:
    """Root on Debian gets a missing simulator; where it stays missing that is said, and no more."""
    steps = Steps()
    monkeypatch.setattr(go, "step", steps)
    monkeypatch.setattr(shutil, "which", lambda name: name if name in ("apt-get", there) else None)
    monkeypatch.setattr(os, "geteuid", lambda: user)
    go.want_simulator()
    assert any("install ngspice" in taken for taken in steps.taken) is installs
    assert ("compared with what it found before" in capsys.readouterr().err) is (not there)


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="this system has no root user")
@pytest.mark.parametrize("user, there, installs", [
    (0, "", True), (1000, "", False), (0, "chromium", False), (0, "chromium-browser", False),
])  # fmt: skip
def test_the_browser_is_installed_or_said_how_to_get(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    user: int,
    there: str,
    installs: bool,
) -> None:
    """Root on Debian gets a missing browser; where it stays missing every system is told how to get it."""
    steps = Steps()
    monkeypatch.setattr(go, "step", steps)
    monkeypatch.setattr(shutil, "which", lambda name: name if name in ("apt-get", there) else None)
    monkeypatch.setattr(os, "geteuid", lambda: user)
    go.want_browser()
    said = capsys.readouterr().err
    assert any("install chromium" in taken for taken in steps.taken) is installs
    assert all(word in said for word in ("Debian", "Fedora", "macOS", "Windows")) is (not there)


@pytest.mark.parametrize(
    "have, step",
    [
        (None, "make"),
        (WANT, "nothing"),
        (dataclasses.replace(WANT, extras=("lint", "oracle", "test")), "nothing"),
        (dataclasses.replace(WANT, extras=()), "install"),
        (dataclasses.replace(WANT, pins="b"), "install"),
        (dataclasses.replace(WANT, complete=False), "make"),
        (dataclasses.replace(WANT, place="elsewhere"), "make"),
    ],
)
def test_no_more_is_done_than_needed(have: go.State | None, step: str) -> None:
    """Complete: nothing; other pins or too few extras: install; half made or moved: anew."""
    assert go.next_step(have, WANT) == step


@pytest.mark.parametrize("name", ["pyproject.toml", "constraints.txt"])
def test_changed_requirements_are_seen(checkout: Path, name: str) -> None:
    """A change in either file of requirements gives other pins, and nothing else."""
    before = go.wanted(("test",))
    with (checkout / name).open("a") as file:
        file.write("# changed\n")
    after = go.wanted(("test",))
    assert after.pins != before.pins
    assert dataclasses.replace(after, pins=before.pins) == before


def test_the_mark_is_read_back(checkout: Path) -> None:
    """What is noted in the environment is read back as it was."""
    state = dataclasses.replace(go.wanted(("test", "oracle")), absent=("coal",))
    go.write_mark(state)
    assert go.read_mark() == state


@pytest.mark.parametrize("text", ["", "{", "[]", "{}", '{"extras": 1, "absent": []}', "\x00"])
def test_a_damaged_mark_counts_as_none(checkout: Path, text: str) -> None:
    """Whatever stands in a damaged mark, it is taken for no mark at all."""
    go.VENV.mkdir()
    go.MARK.write_text(text)
    assert go.read_mark() is None


def test_a_folder_made_by_hand_is_left_alone(checkout: Path) -> None:
    """A `.venv` that somebody else made, and that does not work, is not touched."""
    go.VENV.mkdir()
    (go.VENV / "mine.txt").touch()
    with pytest.raises(SystemExit, match=r"the folder \.venv was not made by go\.py"):
        go.make(go.wanted(()))
    assert [path.name for path in go.VENV.iterdir()] == ["mine.txt"]


def test_what_is_half_made_is_made_anew(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Left-overs of an interrupted run go; until the new one is filled the mark says incomplete."""
    go.write_mark(dataclasses.replace(go.wanted(()), complete=False))
    (go.VENV / "lib").mkdir()
    (go.VENV / "lib" / "half.py").touch()
    monkeypatch.setattr(go, "step", Steps())
    go.make(go.wanted(()))
    assert list(go.VENV.iterdir()) == [go.MARK]
    mark = go.read_mark()
    assert mark is not None
    assert not mark.complete


def test_pip_does_it_where_uv_does_not(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The faster uv is asked first; where it fails, pip gets the same packages and the same pins."""
    steps = Steps("uv pip")
    monkeypatch.setattr(go, "step", steps)
    assert go.install("uv", "-e", ".[test]")
    by_uv, by_pip = steps.taken
    assert by_uv.startswith("uv pip install -q -c constraints.txt -e .[test] --python ")
    assert by_pip.endswith("-m pip install -q -c constraints.txt -e .[test]")


def test_no_uv_is_no_obstacle(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where uv is neither there nor to be had, none is found and pip is asked alone."""
    monkeypatch.setattr(go, "step", Steps(":all:"))
    monkeypatch.setattr(shutil, "which", lambda name: None)
    assert go.find_uv() is None
    assert go.install(None, "-e", ".")


def test_a_library_without_a_build_is_named(
    checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The libraries to compare with are tried one by one, and the one that has no build is named."""
    monkeypatch.setattr(go, "step", Steps("coal"))
    assert go.install_oracles("uv") == ("coal>=3.0.1",)
    monkeypatch.setattr(go, "step", Steps())
    assert go.install_oracles("uv") == ()


def test_a_failed_install_is_said_and_not_noted_as_complete(
    checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where neither installer manages, the script ends with a sentence and the mark is incomplete."""
    monkeypatch.setattr(go, "step", Steps("install"))
    with pytest.raises(SystemExit, match="not everything could be installed"):
        go.fill(go.wanted(()))
    mark = go.read_mark()
    assert mark is not None
    assert not mark.complete


@pytest.mark.parametrize("home", ["", "missing", "there"])
def test_no_cache_without_a_home(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, home: str
) -> None:
    """The installers keep a cache only in a home folder that exists and can be written to."""
    (tmp_path / "there").mkdir()
    name = "USERPROFILE" if go.WINDOWS else "HOME"
    monkeypatch.setenv(name, str(tmp_path / home) if home else "")
    assert ("UV_NO_CACHE" not in go.installer_settings()) is (home == "there")


def test_all_checks_run_and_one_failure_fails(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """After a check that fails the others still run, and the status is that of a failure."""
    ran: list[str] = []

    def run(*words: str, cwd: Path | None = None) -> int:
        ran.append(words[0])
        return 2 if words[0] == "mypy" else 0

    monkeypatch.setattr(go, "run", run)
    assert go.report(go.LINT) == 1
    assert ran == ["ruff", "mypy", "lint-imports"]
    assert re.search(r"mypy .*FAILED \(exit status 2\)", capsys.readouterr().err)


def test_help_and_unknown_commands(capsys: pytest.CaptureFixture[str]) -> None:
    """Help goes to standard output with status 0, a wrong command to standard error with 3."""
    assert go.main([]) == go.main(["--help"]) == 0
    out, err = capsys.readouterr()
    assert "demo [FOLDER]" in out
    assert err == ""
    assert go.main(["tset"]) == 3
    assert "there is no command 'tset'" in capsys.readouterr().err


def test_benchmarks_are_found_by_name(checkout: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Each script of the folder is a benchmark; one that is not there is said before anything runs."""
    (checkout / "benchmarks").mkdir()
    for name in ("bench_check.py", "bench_fit.py", "helper.py"):
        (checkout / "benchmarks" / name).touch()
    assert list(go.benchmarks("")) == ["bench_check", "bench_fit"]
    assert list(go.benchmarks("fit")) == ["bench_fit"]
    assert go.main(["bench", "gear"]) == 3
    assert "there are bench_check, bench_fit" in capsys.readouterr().err


def test_every_requirement_is_pinned_and_no_host_is_named() -> None:
    """constraints.txt pins each requirement of pyproject.toml exactly, and names no address."""
    text = (HERE.parent / "constraints.txt").read_text(encoding="utf-8")
    pins = [line.partition(";")[0].strip() for line in text.splitlines()]
    assert all(re.fullmatch(r"[a-z0-9-]+==[0-9][0-9a-z.]*", pin) for pin in pins)
    project = tomllib.loads((HERE.parent / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"].values()
    required = [*project["dependencies"], *(one for extra in extras for one in extra)]
    names = {re.split(r"[<>=;\[ ]", one)[0] for one in required}
    assert names <= {pin.partition("==")[0] for pin in pins}
