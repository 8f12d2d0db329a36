"""The tables of power and harness on their sheets are those of `show`, each failure behind its row."""

from __future__ import annotations

from collections.abc import Iterator
from html.parser import HTMLParser

import pytest

from hardstand.views.power_form import power_form
from tests.workbench.asking import Browser, browser, demo


class _Words(HTMLParser):
    """The words of a page by the element they stand in."""

    def __init__(self) -> None:
        super().__init__()
        self.titles: list[str] = []
        self.behind: list[str] = []
        self._open: list[str] = []

    def handle_starttag(self, tag: str, _: object) -> None:
        self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop() != tag:
            pass

    def handle_data(self, data: str) -> None:
        if self._open and self._open[-1] == "h3":
            self.titles.append(data)
        if "details" in self._open and self._open[-1] == "li":
            self.behind.append(data)


@pytest.fixture(scope="module")
def inside(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """A browser in the workbench of the demo as built."""
    with browser(demo(tmp_path_factory.mktemp("jet"), "s1")) as made:
        yield made


def words(inside: Browser, stage: str) -> _Words:
    """A stage's page, read."""
    found = _Words()
    found.feed(inside.get(f"/stage?name={stage}").text)
    return found


@pytest.mark.parametrize("stage, titles", [
    ("power", ["Packs: amperes, and charge of a flight", "Rails, volts",
               "Volts at what draws current, closest first", "What single failures take at the worst moment",
               "Wire of each lead, at its worst moment and in the worst single failure"]),
    ("harness", ["Channels", "Leads", "Supplies, packs under way and full"]),
])  # fmt: skip
def test_the_sheet_has_the_tables_of_show(inside: Browser, stage: str, titles: list[str]) -> None:
    """In the same order, under the same titles."""
    assert [one for one in words(inside, stage).titles if one in titles] == titles


def test_every_failure_that_was_tried_stands_behind_a_row(inside: Browser) -> None:
    """Element and kind of each of the some two hundred are told."""
    held = inside.bench.held()
    said = " ".join(words(inside, "power").behind)
    rows = power_form(held.assessment, held.asbuilt)["failures"]
    assert len(rows) > 150
    for one in rows:
        assert one["element"] in said
