from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

import hardstand.cli.check
from hardstand.cli import one_thread, run
from tests.small_aeroplane import TEXT, laid_out, ran


def test_help_is_talk_free_and_ends_well() -> None:
    """`--help` prints the page to standard output alone, with status 0."""
    status, out, err = ran("--help")
    assert status == 0
    assert err == ""
    assert "check [DIR]" in out


@pytest.mark.parametrize(
    "words, hint",
    [
        (["chek"], "Did you mean check?"),
        (["check", "--optoin", "x"], "--help"),
        (["explain", "a", "b"], "--help"),
        (["show"], "--help"),
        (["show", "balence"], "Did you mean balance?"),
        (["explain", "balance.cgrange"], "balance.cg-range"),
        (["parts", "--kind", "pck"], "Did you mean pack?"),
        (["schema", "parst"], "parts"),
        ([""], "--help"),
    ],
)
def test_wrong_usage_is_status_3(words: list[str], hint: str) -> None:
    """Wrong usage ends with 3, nothing on standard output, and the nearest right way."""
    status, out, err = ran(*words)
    assert (status, out) == (3, "")
    assert hint in " ".join(err.split())


def test_unreadable_is_status_2_with_every_problem(tmp_path: Path) -> None:
    """A folder with several faults ends with 2 and names each with file, line and what to do."""
    text = TEXT.replace("mass_g = 1000", "mass_kg = 1").replace('on = "front"', 'on = "frnt"')
    status, out, err = ran("check", laid_out(tmp_path / "jet", text))
    assert (status, out) == (2, "")
    assert "aeroplane.toml:18" in err
    assert "mass_g" in err
    status, out, err = ran("check", tmp_path / "jet", "--json")
    assert (status, err) == (2, "")
    assert {one["line"] for one in json.loads(out)["problems"]} >= {18}


@pytest.mark.parametrize(
    "error", [RuntimeError("boom"), RecursionError(), ZeroDivisionError(), KeyError("x")]
)
def test_a_fault_is_a_sentence(
    error: Exception, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whatever fails inside, a builder reads a sentence and how to report it, never a trace."""

    def fails(*_: object, **__: object) -> None:
        raise error

    monkeypatch.setattr(hardstand.cli.check, "assessed", fails)
    monkeypatch.delenv("HARDSTAND_DEBUG", raising=False)
    status, out, err = ran("check", laid_out(tmp_path / "jet"))
    assert (status, out) == (2, "")
    assert "Traceback" not in err
    assert "Please report it" in err
    monkeypatch.setenv("HARDSTAND_DEBUG", "1")
    assert "Traceback" in ran("check", tmp_path / "jet")[2]


def test_what_the_system_refuses_is_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A refusal of the file system names the file and the reason."""

    def fails(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied", "aeroplane.toml")

    monkeypatch.setattr(hardstand.cli.check, "assessed", fails)
    status, _, err = ran("check", laid_out(tmp_path / "jet"))
    assert status == 2
    assert "aeroplane.toml: permission denied." in err


def test_a_missing_folder_says_what_to_do(tmp_path: Path) -> None:
    """Where there is no aeroplane, the nearest folder that holds one is named."""
    laid_out(tmp_path / "jet")
    status, _, err = ran("check", tmp_path)
    assert status == 2
    assert "jet?" in "".join(err.split("\n"))
    assert "hardstand new DIR" in " ".join(ran("check", tmp_path / "jet" / "parts")[2].split())


def test_no_terminal_no_escape(tmp_path: Path) -> None:
    """What is not a terminal gets plain text."""
    _, out, err = ran("check", laid_out(tmp_path / "jet"))
    assert "\x1b" not in out + err


def test_a_narrow_stream_can_be_written_to(tmp_path: Path) -> None:
    """An output that holds ASCII alone still gets the whole page, and JSON that parses."""
    folder = str(laid_out(tmp_path / "jet"))
    for words in (["check", folder], ["check", folder, "--json"], ["--help"]):
        raw = io.BytesIO()
        out = io.TextIOWrapper(raw, encoding="ascii", errors="strict")
        assert run(words, out, io.StringIO()) in (0, 1)
        out.flush()
        assert raw.getvalue().isascii()


def test_a_closed_pipe_ends_quietly(tmp_path: Path) -> None:
    """When the reader goes away the program ends without a word."""
    command = [sys.executable, "-m", "hardstand", "check", str(laid_out(tmp_path / "jet"))]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait() in (0, 141)


def test_help_needs_no_heavy_library() -> None:
    """`hardstand --help` imports neither numpy nor pydantic."""
    code = (
        "import sys; from hardstand.cli import run; run(['--help']); "
        "sys.exit(bool({'numpy', 'pydantic', 'tomlkit', 'rich'} & set(sys.modules)))"
    )
    assert (
        subprocess.run([sys.executable, "-c", code], capture_output=True, check=False).returncode
        == 0
    )


def test_linear_algebra_has_one_thread_unless_the_user_says_otherwise(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The program sets it before anything is imported, and leaves alone what is set."""
    monkeypatch.setenv("OMP_NUM_THREADS", "3")
    monkeypatch.setenv("OPENBLAS_NUM_THREADS", "1")  # so that it is put back
    monkeypatch.delenv("OPENBLAS_NUM_THREADS")
    one_thread()
    assert os.environ["OMP_NUM_THREADS"] == "3"
    assert os.environ["OPENBLAS_NUM_THREADS"] == "1"
