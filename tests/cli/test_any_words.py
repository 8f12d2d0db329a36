from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hardstand.cli.program import program
from tests.small_aeroplane import laid_out, ran

COMMANDS = sorted(
    set(program.commands) - {"demo", "new", "serve"}
)  # those write folders where they are told, and this one serves until it is interrupted
WORDS = st.one_of(
    st.sampled_from(
        [
            "--json",
            "--all",
            "--units",
            "imperial",
            "--option",
            "aft",
            "--look",
            "--help",
            "1",
            "*",
            "balance",
            "balance.cg@empty",
            "mass.wing.mass_g",
            "item.rx.at_mm",
            "[1, 2]",
            "",
            "-",
            "--",
        ]
    ),
    st.text(max_size=12),
)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An aeroplane that the commands may do what they like with."""
    return laid_out(tmp_path_factory.mktemp("words") / "jet")


@settings(
    max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(command=st.sampled_from(COMMANDS), words=st.lists(WORDS, max_size=3), here=st.booleans())
def test_any_words_end_in_a_documented_status(
    command: str,
    words: list[str],
    here: bool,
    folder: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Whatever is typed, the program answers with status 0 to 3 and never fails itself."""
    monkeypatch.chdir(folder.parent)
    status, out, err = ran(command, *words, *([folder] if here else []))
    assert status in (0, 1, 2, 3)
    assert "itself failed" not in out + err
    assert "\x1b" not in out + err
