"""Killing the program during a write-back never leaves an unreadable or a mixed set of files."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest

from tests.description import killing

ROOT = Path(__file__).parents[2]
KINDS = ["one", "several"]
STRACE = shutil.which("strace")

forks = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system can't fork a process")


def run(command: list[str]) -> subprocess.CompletedProcess[str]:
    """A process with the package and the tests importable and nothing written beside the source."""
    path = os.pathsep.join([str(ROOT / "src"), str(ROOT)])
    environment = {**os.environ, "PYTHONPATH": path, "PYTHONDONTWRITEBYTECODE": "1",
                   "PYTHONHASHSEED": "0"}  # fmt: skip
    return subprocess.run(command, env=environment, capture_output=True, text=True, check=False)


def program(command: str, kind: str, folder: Path) -> list[str]:
    """The command line of the program that is killed."""
    return [sys.executable, "-S", str(Path(killing.__file__)), command, kind, str(folder)]


@forks
@pytest.mark.parametrize("kind", KINDS)
def test_killed_before_every_call(kind: str, tmp_path: Path) -> None:
    """Killed before each call to the system in turn, and half-way through each write."""
    result = run(program("steps", kind, tmp_path / "folder"))
    assert result.returncode == 0, result.stderr
    seen = json.loads(result.stdout)
    assert seen["old"] > 5
    assert seen["new"] > 5
    assert seen["calls"] > 20


@forks
@pytest.mark.parametrize("kind", KINDS)
def test_killed_at_random_instants(kind: str, tmp_path: Path) -> None:
    """Killed 100 times, 200 over both kinds, at a random instant of the write-back."""
    result = run(program("instants", kind, tmp_path / "folder"))
    assert result.returncode == 0, result.stderr
    seen = json.loads(result.stdout)
    assert seen["old"] + seen["new"] == 100
    assert seen["old"] > 0
    assert seen["new"] > 0


def _calls(log: str) -> list[tuple[str, int]]:
    """The system calls after the mark: (name, how many of that name the process had made)."""
    made: Counter[str] = Counter()
    calls, marked = [], False
    for line in log.splitlines():
        name = re.match(r"(?:\d+ +)?(\w+)\(", line)
        if name is None:
            continue
        made[name[1]] += 1
        if marked:
            calls.append((name[1], made[name[1]]))
        marked = marked or killing.MARK in line
    return calls


def _kill_at_each(kind: str, folder: Path, strace: str) -> Counter[str]:
    log = folder.with_name("log")
    killing.lay_out(folder)
    write = program("write", kind, folder)
    tried = run([strace, "-o", str(log), *write])
    if "ptrace" in tried.stderr.lower():
        pytest.skip("this system does not allow tracing a process")
    assert tried.returncode == 0, tried.stderr
    seen: Counter[str] = Counter()
    for name, number in _calls(log.read_text()):
        if name == "exit_group":
            continue
        killing.lay_out(folder)
        inject = f"inject={name}:signal=KILL:when={number}"
        result = run([strace, "-o", os.devnull, "-e", f"trace={name}", "-e", inject, *write])
        assert result.returncode in {-9, 137}, f"{name} {number}: {result.stderr}"
        seen[killing.check(kind, folder)] += 1
    return seen


@pytest.mark.skipif(STRACE is None, reason="strace is not installed")
@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
def test_killed_at_every_system_call(kind: str, tmp_path: Path) -> None:
    """Killed at each real system call of the write-back, up to the end of the process."""
    seen = _kill_at_each(kind, tmp_path / "folder", str(STRACE))
    assert seen["old"] > 20
    assert seen["new"] > 20
