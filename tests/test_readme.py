"""The README's outputs are what the program prints."""

from __future__ import annotations

import re
from io import StringIO
from pathlib import Path

import pytest

from hardstand.cli import run
from hardstand.cli.begin import demo_texts

README = Path(__file__).parents[1] / "README.md"
BLOCK = re.compile(r"<!-- output of: (?P<words>.+?) -->\n```\n(?P<lines>.+?)\n```", re.DOTALL)
LEFT_OUT = "…"


def blocks() -> list[tuple[str, list[str]]]:
    """The command and the lines of every output in the README."""
    text = README.read_text(encoding="utf-8")
    return [(one["words"], one["lines"].split("\n")) for one in BLOCK.finditer(text)]


def printed(words: str, folder: Path) -> list[str]:
    """What the program prints on the demo: at a moment where `--at` names one."""
    command, _, moment = words.partition(" --at ")
    for name, text in demo_texts(moment or "as-built").items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    out = StringIO()
    assert run([*command.split(), str(folder)], out, StringIO()) in (0, 1)
    return [line.rstrip() for line in out.getvalue().split("\n")]


def test_there_are_outputs_to_check() -> None:
    """Check, show and trace each have one."""
    assert {words.split()[0] for words, _ in blocks()} == {"check", "show", "trace"}


@pytest.mark.parametrize("words, lines", blocks())
def test_an_output_is_printed_as_it_stands(words: str, lines: list[str], tmp_path: Path) -> None:
    """Every line shown is printed, in that order; what is left out is marked."""
    real = iter(printed(words, tmp_path))
    for line in lines:
        if line.strip() != LEFT_OUT and line.strip():
            assert line in real, f"the README shows {line!r}, which is not printed there"
