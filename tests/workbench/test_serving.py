"""One workbench over one aeroplane, at addresses of its own."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from hardstand.cli import run
from hardstand.description.storage import Folder
from hardstand.workbench.serving import ServedAlreadyError, alone, listening, origins_of
from tests.small_aeroplane import laid_out


def test_a_second_workbench_is_told_of_the_first(tmp_path: Path) -> None:
    """While one holds the folder another is refused with its address; afterwards it may."""
    folder = Folder(laid_out(tmp_path / "heron"))
    other = alone(Folder(folder.path), "http://127.0.0.1:2")
    with alone(folder, "http://127.0.0.1:1"), pytest.raises(ServedAlreadyError, match=r"127\.0\.0\.1:1"):
        other.__enter__()
    with alone(folder, "http://127.0.0.1:3"):
        pass


def test_the_command_says_where_the_other_one_is(tmp_path: Path) -> None:
    """`hardstand serve` on an aeroplane that is open already ends with status 2 and the address."""
    folder = Folder(laid_out(tmp_path / "heron"))
    err = io.StringIO()
    with alone(folder, "http://127.0.0.1:8620"):
        assert run(["serve", str(folder.path), "--port", "0", "--no-browser"], io.StringIO(), err) == 2
    assert "http://127.0.0.1:8620" in err.getvalue()


def test_a_busy_port_is_named_with_what_to_do(tmp_path: Path) -> None:
    """A port that something else has is refused with the option that names another."""
    folder = laid_out(tmp_path / "heron")
    err = io.StringIO()
    with listening("127.0.0.1", 0) as taken:
        port = str(taken.getsockname()[1])
        assert run(["serve", str(folder), "--port", port, "--no-browser"], io.StringIO(), err) == 2
    assert port in err.getvalue()
    assert "--port" in err.getvalue()


def test_only_our_own_addresses_are_origins() -> None:
    """On this machine alone there are its two names; with the network, its address there too."""
    assert set(origins_of(1, None)) == {"http://127.0.0.1:1", "http://localhost:1"}
    assert origins_of(1, "192.0.2.7")[0] == "http://192.0.2.7:1"
