"""The sheet of the options: ticked, compared as the command does, told when it is of an earlier state."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from hardstand.comparison import compare
from tests.small_aeroplane import TEXT, laid_out
from tests.workbench.asking import Browser, browser, words
from tests.workbench.test_actions import main_file
from tests.workbench.waiting import ended

OPTIONS = """
[[option]]
id = "heavy"

[option.set]
"mass.shell.mass_g" = 1200
"""


@pytest.fixture
def heron(tmp_path: Path) -> Iterator[Browser]:
    """A browser on the small aeroplane with two options."""
    with browser(laid_out(tmp_path / "heron", TEXT + OPTIONS)) as made:
        yield made


def test_options_and_combinations_stand_side_by_side(heron: Browser) -> None:
    """Each column ticked is there, with what `compare` says of it and nothing else."""
    ticks = {"A.aft": "on", "B.aft": "on", "B.heavy": "on", "back": "/options"}
    assert heron.submit("/compare-options", ticks)[0] == 200
    standing = ended(heron.bench.comparing)
    assert standing.result is not None
    wanted = compare(heron.bench.held().workspace, [("aft",), ("aft", "heavy")]).as_json()
    assert standing.result["comparison"] == wanted
    said = words(heron.get("/options").text)
    assert "aft+heavy" in said
    assert "200 g more mass" in said
    text = heron.get("/options").text
    assert 'name="B.heavy" checked' in text
    assert 'name="A.heavy">' in text


def test_nothing_ticked_is_refused(heron: Browser) -> None:
    """A comparison of nothing is not begun."""
    status, text = heron.do("/compare-options", back="/options")
    assert status == 422
    assert "no option is ticked" in text
    assert heron.bench.comparing.now.phase == "none"


def test_a_comparison_of_an_earlier_state_says_so(heron: Browser) -> None:
    """What has changed since it was made is told with both values."""
    heron.submit("/compare-options", {"A.aft": "on", "back": "/options"})
    ended(heron.bench.comparing)
    path = heron.bench.folder.path / "aeroplane.toml"
    path.write_text(main_file(heron).replace("mass_g = 1000", "mass_g = 1100"), encoding="utf-8")
    said = words(heron.get("/options").text)
    assert "Compare again" in said
    assert "mass.shell.mass_g was 1000, is now 1100" in said


def test_options_that_cannot_be_combined_say_why(tmp_path: Path) -> None:
    """Two options that set one field are named with the line, instead of compared."""
    text = TEXT + OPTIONS.replace('"mass.shell.mass_g" = 1200', '"item.rx.at_mm" = [200, 0]')
    with browser(laid_out(tmp_path / "heron", text)) as made:
        made.submit("/compare-options", {"A.heavy": "on", "A.aft": "on", "back": "/options"})
        assert ended(made.bench.comparing).phase == "failed"
        page = made.get("/options").text
        assert "aeroplane.toml:" in page
        assert "both change item.rx.at_mm" in page


def test_a_comparison_can_be_stopped(heron: Browser) -> None:
    """Stopped before it is done it gives nothing, and says so; a new one can begin."""
    heron.submit("/compare-options", {"A.aft": "on", "back": "/options"})
    heron.bench.comparing.stop()
    standing = ended(heron.bench.comparing)
    assert standing.phase == "failed"
    assert "It was stopped" in standing.trouble
    assert heron.submit("/compare-options", {"A.aft": "on", "back": "/options"})[0] == 200


def test_an_aeroplane_without_options_says_what_one_is(tmp_path: Path) -> None:
    """The sheet is there and says how to come to a comparison."""
    text = TEXT[: TEXT.index("[[option]]")]
    with browser(laid_out(tmp_path / "heron", text)) as made:
        assert "holds no options" in made.get("/options").text
