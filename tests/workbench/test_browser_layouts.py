"""Better layouts and options compared, in a real browser: looked for, closed, opened again, taken."""

from __future__ import annotations

import gzip
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from tests.small_aeroplane import laid_out
from tests.small_placement import TEXT
from tests.workbench.driven import entered, launched, served

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

AXE = gzip.decompress((Path(__file__).parent / "vendored" / "axe.min.js.gz").read_bytes()).decode()
GUIDELINES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
LONG_MS = 90_000
OPTIONS = """
[[option]]
id = "heavy"
name = "another shell"

[option.set]
"mass.shell.mass_g" = 3400

[[option]]
id = "turned"

[option.set]
"item.hub.turn_deg" = 90
"""


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    """One Chromium for all tests of this file."""
    with launched() as browser:
        yield browser


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small aeroplane with two options."""
    return laid_out(tmp_path / "wren", TEXT + OPTIONS)


def watched(page: Page) -> list[str]:
    """What goes wrong in a page from now on."""
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda one: wrong.append(one.text) if one.type == "error" else None)
    return wrong


def violations(page: Page) -> dict[str, Any]:
    """What an accessibility checker finds on light and on dark paper, with everything unfolded."""
    page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
    page.evaluate(AXE)
    found: dict[str, Any] = {}
    for paper in ("light", "dark"):
        page.emulate_media(color_scheme=paper)
        result = page.evaluate("names => axe.run(document, {runOnly: names})", GUIDELINES)
        found |= {f"{page.url} {paper} {one['id']}": [node["target"] for node in one["nodes"]][:3]
                  for one in result["violations"]}  # fmt: skip
    return found


def test_a_better_layout_is_looked_for_and_accepted(chromium: Browser, folder: Path) -> None:
    """By keyboard alone: begun on one page, found after it was closed, shown in another, taken, undone."""
    path = folder / "aeroplane.toml"
    before = path.read_text(encoding="utf-8")
    with served(folder) as link:
        page = entered(chromium, link)
        wrong = watched(page)
        page.goto(link.partition("/enter")[0] + "/trays")
        page.get_by_role("link", name="Find a better layout").press("Enter")
        page.locator("#look").wait_for()
        page.locator("input[name='item.weight']").press(" ")
        page.select_option("#how-long", "1")
        page.select_option("#alternatives", "2")
        page.locator("#look").press("Enter")
        page.wait_for_selector("#work, .column")
        other = page.context.new_page()
        wrong_there = watched(other)
        other.set_viewport_size({"width": 390, "height": 844})
        page.close()
        other.goto(link.partition("/enter")[0] + "/layouts")
        other.wait_for_selector(".column", timeout=LONG_MS)
        assert other.locator(".column svg").count() >= 2
        assert "Weight" not in other.locator("#name-1 ~ details .moves").first.inner_text()
        other.locator("#take-1").press("Enter")
        other.wait_for_selector("#title-block[data-revision='r2']")
        assert "This is how it stands now" in other.locator(".column").first.inner_text()
        assert path.read_text(encoding="utf-8") != before
        other.locator("#undo").press("Enter")
        other.wait_for_selector("#title-block[data-revision='r3']")
        assert path.read_text(encoding="utf-8") == before
        other.locator("#take-2").wait_for()
        other.context.close()
        assert wrong == wrong_there == []


@pytest.mark.slow
def test_the_new_pages_keep_the_guidelines(chromium: Browser, folder: Path) -> None:
    """With their answers on them, wide and narrow, light and dark: no violation, nothing beyond the edge."""
    with served(folder) as link:
        page = entered(chromium, link, bypass_csp=True)
        origin = link.partition("/enter")[0]
        page.goto(f"{origin}/options")
        page.locator("#compare").click()
        page.wait_for_selector("table.beside", timeout=LONG_MS)
        assert "400 g more mass" in page.locator("#notes").inner_text()
        page.goto(f"{origin}/layouts")
        page.select_option("#how-long", "1")
        page.select_option("#alternatives", "2")
        page.locator("input[name='item.weight']").click()
        page.locator("#look").click()
        page.wait_for_selector(".column", timeout=LONG_MS)
        found: dict[str, Any] = {}
        for width in (1440, 390):
            page.set_viewport_size({"width": width, "height": 900})
            for path in ("/layouts", "/options"):
                page.goto(origin + path)
                found |= violations(page)
                assert page.evaluate("document.documentElement.scrollWidth") <= width, path
        page.context.close()
        assert found == {}


def test_a_search_is_stopped_from_its_page(chromium: Browser, folder: Path) -> None:
    """Progress runs on the page by itself; stop ends it with the best so far, shown without a reload."""
    with served(folder) as link:
        page = entered(chromium, link)
        wrong = watched(page)
        page.goto(link.partition("/enter")[0] + "/layouts")
        page.select_option("#how-long", "10000")
        page.select_option("#alternatives", "1")
        page.locator("#look").click()
        page.locator(".working .lead-text").filter(has_text="ayout").wait_for(timeout=LONG_MS)
        if page.locator("#stop").count():
            page.locator("#stop").click()
        page.wait_for_selector(".column", timeout=LONG_MS)
        page.context.close()
        assert wrong == []
