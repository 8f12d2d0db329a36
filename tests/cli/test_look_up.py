from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from hardstand.cli.begin import demo_texts
from tests.small_aeroplane import TEXT, laid_out, ran


def test_parts_are_found_by_words() -> None:
    """Every word must fit; one part found shows all that is known of it."""
    found = json.loads(ran("parts", "receiver", "12", "--json")[1])["parts"]
    assert found
    assert all("receiver" in one["id"] and "12" in one["id"] for one in found)
    assert "typical of its class" in ran("parts", "receiver-12-channel")[1]
    assert "out-" in ran("parts", "receiver-12-channel")[1]


def test_kind_lists_only_that_kind() -> None:
    """`--kind` keeps to one kind."""
    found = json.loads(ran("parts", "--kind", "pack", "--json")[1])["parts"]
    assert len(found) > 5
    assert {one["kind"] for one in found} == {"pack"}


def test_own_parts_are_found_too(tmp_path: Path) -> None:
    """The folder's own part stands in the list and is marked."""
    folder = laid_out(tmp_path / "jet")
    (folder / "parts").mkdir()
    (folder / "parts" / "own.toml").write_text(
        '[[part]]\nid = "my-heron-receiver"\nextends = "receiver-12-channel"\nmass_g = 19\n'
    )
    found = json.loads(ran("parts", "heron", "--in", folder, "--json")[1])["parts"]
    assert [(one["id"], one["own"], one["mass_g"]) for one in found] == [
        ("my-heron-receiver", True, 19.0)
    ]


def test_nothing_found_is_no_failure() -> None:
    """Words that no part holds end with 0 and say what to do."""
    status, out, err = ran("parts", "zzzzzz")
    assert (status, out) == (0, "")
    assert "No part" in err


def test_explain_gives_the_rule_with_limit_and_source() -> None:
    """A code leads to why, formula, limit and source; without one all rules are listed."""
    page = " ".join(ran("explain", "balance.lateral")[1].split())
    assert "−3.0 mm to 3.0 mm" in page
    assert "source" in page
    listed = json.loads(ran("explain", "--json")[1])["rules"]
    assert [one["code"] for one in listed] == sorted(one["code"] for one in listed)
    assert all(ran("explain", one["code"])[0] == 0 for one in listed)


def test_explain_shows_the_limit_that_holds_in_the_folder(tmp_path: Path) -> None:
    """The builder's own with its reason, and beside it the default; elsewhere the default alone."""
    own = '\n[[limit]]\nid = "balance.lateral"\nhigh = 5\nreason = "wide wing"\n'
    folder = laid_out(tmp_path / "jet", TEXT + own)
    page = " ".join(ran("explain", "balance.lateral", "--in", folder)[1].split())
    assert "range −3.0 mm to 5.0 mm" in page
    assert "set by you: wide wing" in page
    assert "by default range −3.0 mm to 3.0 mm" in page
    (limit,) = json.loads(ran("explain", "balance.lateral", "--in", folder, "--json")[1])["limits"]
    assert (limit["high"], limit["default"]["high"]) == (5.0, 3.0)
    assert "set by you" not in ran("explain", "fit.box-gap", "--in", folder)[1]
    assert ran("explain", "balance.lateral", "--in", tmp_path / "none")[0] == 2


@pytest.mark.parametrize("file", ["aeroplane", "parts", "measurements"])
def test_schema_accepts_the_demo_and_refuses_slips(file: str) -> None:
    """The printed schema is valid, accepts the demo's files, and refuses an unknown field."""
    jsonschema = pytest.importorskip("jsonschema", reason="jsonschema is in the test extra")
    import tomllib

    schema = json.loads(ran("schema", file)[1])
    jsonschema.Draft202012Validator.check_schema(schema)
    checker = jsonschema.Draft202012Validator(schema)
    texts = [text for name, text in demo_texts("as-built").items() if name.startswith(file)]
    assert texts
    for text in texts:
        data = tomllib.loads(text)
        assert [one.message for one in checker.iter_errors(data)] == []
        table, rows = next((key, value) for key, value in data.items() if isinstance(value, list))
        data[table] = [{**rows[0], "colour": "red"}]
        assert not checker.is_valid(data)


def test_schema_takes_text_with_a_unit() -> None:
    """A number whose field ends in a unit may be text, one without a unit may not."""
    jsonschema = pytest.importorskip("jsonschema", reason="jsonschema is in the test extra")
    checker = jsonschema.Draft202012Validator(json.loads(ran("schema")[1]))
    data = {
        "format": 1,
        "aeroplane": {"name": "x", "span_mm": "79 in"},
        "mass": [{"id": "a", "mass_g": "14.5 oz", "at_mm": ["1 in", 0, 0]}],
    }
    assert [one.message for one in checker.iter_errors(data)] == []
    data["aeroplane"] = {"name": 3}
    assert not checker.is_valid(data)


def test_options_are_listed(tmp_path: Path) -> None:
    """The options stand with their names, and how many changes each makes."""
    folder = laid_out(tmp_path / "jet")
    assert "receiver further aft" in ran("options", folder)[1]
    found = json.loads(ran("options", folder, "--json")[1])["options"]
    assert [(one["id"], one["changes"]) for one in found] == [("aft", 1)]
    assert (
        "holds no options"
        in ran("options", laid_out(tmp_path / "none", TEXT.partition("[[option]]")[0]))[1]
    )


def test_completion_prints_a_script() -> None:
    """Each shell gets a script that asks the program."""
    for shell in ("bash", "zsh", "fish"):
        assert "_HARDSTAND_COMPLETE" in ran("completion", shell)[1]


@pytest.mark.skipif(shutil.which("bash") is None, reason="no bash on this machine")
def test_the_bash_script_is_valid() -> None:
    """The script for bash is one that bash can read."""
    script = ran("completion", "bash")[1]
    subprocess.run(["bash", "-n"], input=script, text=True, check=True)
