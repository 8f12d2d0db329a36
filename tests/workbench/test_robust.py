"""The workbench under requests of every kind, many clients at once, and sudden death, each in a small size."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.workbench.robust import clients_run, requests_run
from tests.workbench.robust.wishes import ROUTES

ROOT = Path(__file__).parents[2]


def test_no_request_breaks_anything(tmp_path: Path) -> None:
    """Whatever is asked: no fault, nothing written outside, refusals in words, nothing altered by reading."""
    tally = requests_run.run(600, tmp_path)
    assert not tally.faults, "\n".join(tally.faults[:10])
    assert all(tally.of_route(one) >= 10 for one in ROUTES)
    assert tally.kinds["valid"] >= tally.count // 4
    assert tally.edits >= 10


def test_no_edit_of_many_clients_is_lost(tmp_path: Path) -> None:
    """Fifty clients edit at once: what is accepted is in the history once, what is stale is told both values."""
    edits = clients_run.run(50, 3.0, tmp_path)
    assert not edits.faults, "\n".join(edits.faults[:10])
    assert edits.accepted
    assert edits.stale


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system can't fork a process")
def test_a_killed_server_loses_nothing_that_it_accepted() -> None:
    """Killed at random moments while it is edited, it is served again with every accepted edit."""
    path = os.pathsep.join([str(ROOT / "src"), str(ROOT)])
    ended = subprocess.run(
        [sys.executable, "-m", "tests.workbench.killed_server", "8"], cwd=ROOT, capture_output=True, text=True,
        env={**os.environ, "PYTHONPATH": path, "PYTHONDONTWRITEBYTECODE": "1"}, check=False)  # fmt: skip
    assert ended.returncode == 0, ended.stdout + ended.stderr
    assert "deaths 8" in ended.stdout
    assert "accepted 0" not in ended.stdout
