"""The pages in docs/ are held to what the program does."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from hardstand.cli.program import program
from hardstand.cli.reference import reference
from tests.engines.harness.wired import texts
from tests.small_aeroplane import TEXT, laid_out, ran
from tests.small_mesh import box

DOCS = Path(__file__).parents[1] / "docs"
_BLOCK = re.compile(r"```json (\w+)\n(.*?)```", re.DOTALL)
BLOCKS = {
    name: json.loads(text) for name, text in _BLOCK.findall((DOCS / "json.md").read_text("utf-8"))
}
NO_GO = TEXT.replace("cg_range_mm = [150, 250]", "cg_range_mm = [10, 20]")


def test_the_page_of_the_commands_is_up_to_date() -> None:
    """docs/commands.md is what `python -m hardstand.cli.reference` prints."""
    assert (DOCS / "commands.md").read_text("utf-8") == reference()


def test_every_command_has_help_and_a_section() -> None:
    """Each command and each of its parameters says what it is for."""
    for name, command in program.commands.items():
        assert command.help, name
        assert getattr(command, "section", ""), name
        for parameter in command.params:
            assert getattr(parameter, "help", ""), f"{name} {parameter.name}"


def valid(name: str, form: dict[str, Any]) -> None:
    """Holds a form against its schema on the page."""
    jsonschema = pytest.importorskip("jsonschema", reason="jsonschema is in the test extra")
    schema = {**BLOCKS[name], "$defs": BLOCKS["defs"]}
    jsonschema.Draft202012Validator.check_schema(schema)
    errors = jsonschema.Draft202012Validator(schema).iter_errors(form)
    assert [f"{list(one.absolute_path)}: {one.message}" for one in errors] == []


def wired(folder: Path) -> Path:
    """A folder with an aeroplane that has leads."""
    for name, text in texts().items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


CASES = [
    ("check", ["check", "DIR"]),
    ("check", ["check", "DIR", "--option", "aft"]),
    ("check", ["demo", "NEW"]),
    ("problems", ["check", "BROKEN"]),
    ("error", ["check", "NONE"]),
    ("error", ["show", "blance", "DIR"]),
    ("show", ["show", "balance", "DIR"]),
    ("show", ["show", "fit", "DIR"]),
    ("show", ["show", "power", "DIR"]),
    ("trace", ["trace", "balance.cg@empty", "DIR"]),
    ("moves", ["trace", "mass.wing.mass_g", "DIR"]),
    ("figures", ["trace", "*", "DIR"]),
    ("rule", ["explain", "balance.lateral"]),
    ("parts", ["parts", "receiver"]),
    ("changed", ["set", "mass.wing.mass_g", "810", "DIR"]),
    ("changed", ["set", "mass.wing.mass_g", "820", "DIR", "--look"]),
    ("changed", ["measure", "mass.wing.mass_g", "812", "DIR"]),
    ("changed", ["weigh", "DIR", "--state", "empty", "--stand", "595", "--tips", "level"]),
    ("renamed", ["rename", "item.rx", "receiver", "DIR"]),
    ("imported", ["import-mesh", "MESH", "DIR", "--stations", "100,300"]),
    ("stepped", ["undo", "DIR"]),
    ("history", ["history", "DIR"]),
    ("options", ["options", "DIR"]),
    ("comparison", ["compare", "aft", "--in", "DIR"]),
    ("placement", ["place", "DIR", "--work", "1"]),
    ("channels", ["channels", "WIRED"]),
    ("drawn", ["draw", "DIR", "--screen", "phone"]),
    ("template", ["template", "front", "DIR", "--out", "NEW", "--format", "svg"]),
    ("harness", ["harness", "WIRED", "--out", "NEW", "--labels"]),
    ("begun", ["new", "NEW", "--name", "x"]),
    ("tidied", ["fmt", "DIR"]),
]


@pytest.mark.parametrize(
    "name, words", CASES, ids=lambda one: one if isinstance(one, str) else " ".join(one)
)
def test_json_is_as_documented(name: str, words: list[str], tmp_path: Path) -> None:
    """What a command prints with `--json` is one object that fits its schema in docs/json.md."""
    folders = {
        "DIR": laid_out(tmp_path / "jet", NO_GO),
        "NEW": tmp_path / "new",
        "NONE": tmp_path / "none",
        "MESH": box(tmp_path / "hull.stl"),
        "WIRED": wired(tmp_path / "wired"),
        "BROKEN": laid_out(tmp_path / "broken", TEXT + "\n[[mass]]\nid = 3\n"),
    }
    if name in ("stepped", "history"):
        ran("set", "mass.wing.mass_g", "805", folders["DIR"])
    _, out, err = ran(*(folders.get(word, word) for word in words), "--json")
    assert err == ""
    valid(name, json.loads(out))


def test_every_form_is_tried() -> None:
    """No schema of the page goes without a command that prints it."""
    assert {name for name, _ in CASES} == BLOCKS.keys() - {"defs"}


def test_figures_of_findings_are_documented(tmp_path: Path) -> None:
    """A finding with figure, limit and remedy fits the schema in every part."""
    form = json.loads(ran("check", laid_out(tmp_path / "jet", NO_GO), "--json")[1])
    whole = [one for one in form["findings"] if one["figure"] and one["limit"]]
    assert whole
    assert any(one["severity"] == "no-go" for one in whole)
