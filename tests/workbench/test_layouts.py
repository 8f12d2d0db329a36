"""A better layout from the workbench: looked for, told of, stopped, taken, refused."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.small_aeroplane import laid_out
from tests.small_placement import TEXT, tight
from tests.workbench.asking import Browser, browser, words
from tests.workbench.test_actions import main_file
from tests.workbench.waiting import ended, every_tick, until


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Browser, str]]:
    """A browser on a small aeroplane for which layouts were found, and its file as it was."""
    folder = laid_out(tmp_path_factory.mktemp("wren") / "wren", TEXT)
    with browser(folder) as made:
        status, text = made.submit("/look-for-layouts", {**every_tick(made), "alternatives": "3"})
        assert status == 200
        assert "The search has begun" in text
        assert ended(made.bench.seeking).phase == "done"
        yield made, main_file(made)


@pytest.fixture
def wren(found: tuple[Browser, str]) -> Browser:
    """The same with the file as it was."""
    made, before = found
    if main_file(made) != before:
        (made.bench.folder.path / "aeroplane.toml").write_text(before, encoding="utf-8")
        made.bench.refresh()
    return made


def take(made: Browser, number: int) -> tuple[int, str]:
    """Take a layout as the page's button does."""
    search = str(made.bench.seeking.now.number)
    return made.do("/take-layout", search=search, layout=str(number), back="/layouts")


def test_the_answer_stands_on_the_page_whenever_it_is_opened(wren: Browser) -> None:
    """Drawings side by side, what differs, the proof and a button for each, long after the search."""
    text = wren.get("/layouts").text
    said = words(text)
    count = len(wren.bench.seeking.now.result["placement"]["layouts"])  # type: ignore[index]
    assert count >= 2
    assert text.count('class="sign take"') == count
    assert "thin lead" in said
    assert "proven" in said
    assert "tightest clearance, to spare" in said
    assert 'data-part="before"' in text
    assert "An answer is there." in wren.get("/trays").text


def test_taking_a_layout_is_one_change_that_undo_takes_back(wren: Browser) -> None:
    """All moves are one revision with the comments kept; undo brings the file back, and it can be taken again."""
    before, revision = main_file(wren), wren.bench.now.revision
    status, text = take(wren, 1)
    assert status == 200
    assert "Written as" in text
    assert "This is how it stands now" in text
    assert int(wren.bench.now.revision[1:]) == int(revision[1:]) + 1
    for one in wren.bench.seeking.now.result["placement"]["layouts"][0]["changes"]:  # type: ignore[index]
        assert wren.bench.held().workspace.value_at(one["address"]) == one["new"]
    assert wren.do("/undo", back="/layouts")[0] == 200
    assert main_file(wren) == before
    assert take(wren, 1)[0] == 200


def test_an_answer_for_another_description_is_refused_with_both_values(wren: Browser) -> None:
    """What was found no longer holds where anything it rests on has changed; comments are nothing of that."""
    path = wren.bench.folder.path / "aeroplane.toml"
    before = main_file(wren)
    path.write_text(before.replace("mass_g = 3000", "mass_g = 3100"), encoding="utf-8")
    status, text = take(wren, 1)
    assert status == 409
    assert "mass.shell.mass_g was 3000, is now 3100" in words(text)
    assert "no longer what these were found for" in words(wren.get("/layouts").text)
    assert "mass_g = 3100" in main_file(wren)
    path.write_text(f"# a remark\n{before}", encoding="utf-8")
    assert take(wren, 1)[0] == 200


def test_a_layout_of_an_earlier_search_is_not_taken(wren: Browser) -> None:
    """A page that shows another answer than the one in force is told so."""
    before = main_file(wren)
    status, text = wren.do("/take-layout", search="77", layout="1", back="/layouts")
    assert status == 409
    assert "no longer here" in text
    assert wren.do("/take-layout", search="1", layout="9", back="/layouts")[0] == 400
    assert main_file(wren) == before


def test_the_search_is_told_of_and_stopped_with_the_best_so_far(tmp_path: Path) -> None:
    """While it works its cost, bound and time are told, a second one is refused, and stop keeps what it has."""
    text = TEXT.replace("move_x_mm = [180, 240]", "") + CROWD
    with browser(laid_out(tmp_path / "wren", text)) as made:
        before = main_file(made)
        heard: list[str] = []
        made.bench.seeking.listen(lambda: heard.append(made.bench.seeking.now.words))
        made.submit("/look-for-layouts", {**every_tick(made), "work": "10000"})
        until(made.bench.seeking, lambda one: "none under" in one.words)
        assert "One is being looked for." in made.get("/trays").text
        progress = words(made.get("/work?of=layouts").text)
        assert "Layout of" in progress
        assert "0:" in progress
        status, said = made.submit("/look-for-layouts", every_tick(made))
        assert status == 409
        assert "worked on already" in said
        assert made.do("/stop-looking", back="/layouts")[0] == 200
        standing = ended(made.bench.seeking)
        assert standing.result is not None
        assert standing.result["placement"]["ending"] == "cancelled"
        assert any("none under" in one for one in heard)
        answer = made.get("/work?of=layouts")
        assert (answer.status_code, answer.headers["hx-trigger"]) == (204, "work-ended")
        assert "It was stopped" in words(made.get("/layouts").text)
        assert main_file(made) == before


def test_only_what_is_ticked_moves(tmp_path: Path) -> None:
    """An item or a tray without its tick stays, and nothing ticked is refused."""
    with browser(laid_out(tmp_path / "wren", TEXT)) as made:
        form = every_tick(made)
        del form["item.pump"], form["item.weight"]  # and so the hub alone
        made.submit("/look-for-layouts", form)
        standing = ended(made.bench.seeking)
        assert standing.result is not None
        places = standing.result["placement"]["layouts"][0]["places"]
        assert [one["item"] for one in places] == ["hub"]
        del form["tray.shelf"]
        status, text = made.submit("/look-for-layouts", form)
        assert status == 422
        assert "nothing is ticked" in text


def test_where_there_is_no_layout_the_contradiction_is_told(tmp_path: Path) -> None:
    """Two boxes on a shelf a millimetre too short: what contradicts what, and what would do."""
    with browser(laid_out(tmp_path / "wren", tight(64))) as made:
        made.submit("/look-for-layouts", every_tick(made))
        assert ended(made.bench.seeking).phase == "done"
        said = words(made.get("/layouts").text)
        assert "There is no layout" in said
        assert "Hub (hub)" in said
        assert "Shelf (shelf) 1 mm longer" in said


def test_work_that_is_ended_from_outside_says_so(tmp_path: Path) -> None:
    """A process that is gone leaves words, not a page that waits for ever; the next search can begin."""
    with browser(laid_out(tmp_path / "wren", TEXT)) as made:
        made.submit("/look-for-layouts", {**every_tick(made), "work": "10000"})
        made.bench.seeking.close()
        assert ended(made.bench.seeking).phase == "failed"
        assert "ended before it came to anything" in made.get("/layouts").text
        assert made.submit("/look-for-layouts", every_tick(made))[0] == 200


CROWD = "".join(
    f'\n[[item]]\nid = "cube-{n}"\npart = "cube"\non = "shelf"\nat_mm = [{x}, {y}]\n'
    for n, (x, y) in enumerate(((112, -46), (112, -22), (112, 46), (140, 46), (246, -46), (220, -46), (194, -46)))
)
