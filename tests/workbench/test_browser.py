"""The workbench in a real browser: what a builder does with hand and keyboard, and what they see."""

from __future__ import annotations

import gzip
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import urlsplit

import pytest

from tests.workbench.asking import demo
from tests.workbench.driven import entered, launched, served

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

AXE = gzip.decompress((Path(__file__).parent / "vendored" / "axe.min.js.gz").read_bytes()).decode()
PATHS = ("/", "/trays?tray=main-tray", "/trays?item=rx-pack-left", "/layouts", "/options", "/balance", "/weigh-in",
         "/description",
         "/description?table=item&row=rx-pack-left", "/text?file=measurements.toml", "/history",
         "/stage?name=fit", "/trace?of=balance.cg@ref", "/rule?code=balance.cg-range", "/nothing")  # fmt: skip
Shown = tuple[str, Any]  # an origin, and what a browser keeps of its session
SHOTS = Path(os.environ.get("HARDSTAND_SHOTS", Path(tempfile.gettempdir()) / "hardstand-shots"))


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    """One Chromium for all tests of this file."""
    with launched() as browser:
        yield browser


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The demo's first layout."""
    return demo(tmp_path)


@pytest.fixture
def link(folder: Path, chromium: Browser) -> Iterator[str]:
    """A server over it. The browser comes first: where there is none the test is skipped."""
    del chromium
    with served(folder) as found:
        yield found


@pytest.fixture(scope="module")
def shown(chromium: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shown]:
    """A server that tests only look at, and the session that they share: a link works once."""
    with served(demo(tmp_path_factory.mktemp("shown"))) as found:
        page = entered(chromium, found)
        yield found.partition("/enter")[0], page.context.storage_state()
        page.context.close()


@pytest.fixture
def page(chromium: Browser, link: str) -> Iterator[Page]:
    """A page that has come in; at the end no request has left the machine, and nothing complained."""
    made = entered(chromium, link)
    outward: list[str] = []
    wrong: list[str] = []
    made.context.on("request", lambda one: outward.append(one.url) if _host(one.url) != _host(link) else None)
    made.on("pageerror", lambda error: wrong.append(str(error)))
    made.on("console", lambda one: wrong.append(one.text) if "Content Security" in one.text else None)
    yield made
    made.context.close()
    assert outward == []
    assert wrong == []


def _host(url: str) -> str:
    return urlsplit(url).netloc


def at(page: Page, path: str) -> None:
    """Turn to a page of the workbench."""
    page.goto(page.url.split("/", 3)[0] + "//" + _host(page.url) + path)


def revision(page: Page) -> str:
    """The revision that the title block names."""
    return page.locator("#title-block").get_attribute("data-revision") or ""


def wait_for_revision(page: Page, name: str) -> None:
    """Wait until the title block names a revision."""
    page.wait_for_selector(f"#title-block[data-revision='{name}']")


def drag(page: Page, about: str, x_mm: float, y_mm: float) -> None:
    """Drag an item of the trays by a distance, in steps, and let it go."""
    scale = float(page.locator(".moving").get_attribute("data-scale") or 0)
    factor: float = page.evaluate("document.querySelector('.moving svg').getScreenCTM().a")
    box = page.locator(f".moving g[role=button][data-about='{about}']").bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + x_mm * scale * factor, y - y_mm * scale * factor, steps=6)
    page.wait_for_timeout(250)  # a hand takes that long, and the trial has time to answer
    page.mouse.up()


def test_a_drag_into_a_collision_is_told_remedied_and_undone(page: Page, folder: Path) -> None:
    """A box dragged against another touches it: the finding says so, its remedy clears it, undo goes back."""
    at(page, "/trays?item=receiver-front")
    before = (folder / "aeroplane.toml").read_text(encoding="utf-8")
    drag(page, "item.receiver-front", 18, 0)
    wait_for_revision(page, "r2")
    finding = page.locator(".finding", has_text="fit.box-gap")
    finding.wait_for()
    assert "no-go" in finding.inner_text()
    assert finding.get_attribute("data-about") == "brake-controller receiver-front"
    assert "[760, -62]" in (folder / "aeroplane.toml").read_text(encoding="utf-8")
    finding.locator("button.do").click()
    wait_for_revision(page, "r3")
    assert "no longer there" in page.locator("#said").inner_text().lower()
    page.locator("#undo").click()
    wait_for_revision(page, "r4")
    page.locator("#undo").click()
    wait_for_revision(page, "r5")
    assert (folder / "aeroplane.toml").read_text(encoding="utf-8") == before


def test_figures_follow_the_hand_before_anything_is_written(page: Page, folder: Path) -> None:
    """While a pack is in the hand the CG moves and its distances are told; the file stays as it is."""
    at(page, "/trays?item=rx-pack-left")
    before = (folder / "aeroplane.toml").read_bytes()
    cg = page.locator("#cg").inner_text()
    box = page.locator(".moving g[role=button][data-about='item.rx-pack-left']").bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 30, box["y"] + 10)
    page.mouse.down()
    page.mouse.move(box["x"] + 200, box["y"] + 10, steps=5)
    page.locator("#cg").filter(has_not_text=cg).wait_for()
    assert (folder / "aeroplane.toml").read_bytes() == before
    page.keyboard.press("Escape")
    page.mouse.up()
    assert revision(page) == "r1"


def test_the_keyboard_moves_and_turns(page: Page, folder: Path) -> None:
    """Arrows move what has the focus by 1 mm, with shift by 10; R turns it by a quarter."""
    at(page, "/trays?item=rx-pack-left")
    page.locator(".moving g[role=button][data-about='item.rx-pack-left']").focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("ArrowDown")
    wait_for_revision(page, "r2")
    assert "at_mm = [341, -45]" in (folder / "aeroplane.toml").read_text(encoding="utf-8")
    page.wait_for_timeout(300)
    page.locator(".moving g[role=button][data-about='item.rx-pack-left']").focus()
    page.keyboard.press("r")
    wait_for_revision(page, "r3")
    assert "turn_deg = 90" in (folder / "aeroplane.toml").read_text(encoding="utf-8")


def test_drawing_and_table_mark_one_another(page: Page) -> None:
    """What is clicked in the drawing is marked in the table, and the other way round."""
    at(page, "/trays?tray=main-tray")
    page.locator(".moving g[role=button]").first.click()
    page.wait_for_selector("tr[aria-current='true']")
    name = page.locator("tr[aria-current='true']").get_attribute("data-about")
    assert page.locator(f"svg [data-about='{name}'][aria-current='true']").count() > 0
    other = page.locator("a.pick").last
    about = other.get_attribute("data-pick")
    other.click()
    page.wait_for_selector(f"svg [data-about='{about}'][aria-current='true']")
    page.wait_for_selector("#selected h2")


def test_an_edit_from_outside_shows_within_a_second(page: Page, folder: Path) -> None:
    """A file saved by another program is on the page before a second has passed."""
    at(page, "/")
    page.wait_for_timeout(400)
    path = folder / "aeroplane.toml"
    path.write_text(path.read_text(encoding="utf-8").replace('name = "Tarnwing 20"', 'name = "Otherwing"'),
                    encoding="utf-8")  # fmt: skip
    page.wait_for_selector("#title-block[data-revision='r2']", timeout=5_000)
    assert "Otherwing" in page.locator("#title-block").inner_text()


def test_a_slide_moves_the_cg_and_is_written(page: Page, folder: Path) -> None:
    """A pack slid by the keyboard moves the CG and the file."""
    at(page, "/balance")
    cg = page.locator("#cg").inner_text()
    page.locator("#slide-rx-pack-left").focus()
    page.keyboard.press("Shift+ArrowRight")
    wait_for_revision(page, "r2")
    assert "at_mm = [340, -44]" in (folder / "aeroplane.toml").read_text(encoding="utf-8")
    page.keyboard.press("End")
    wait_for_revision(page, "r3")
    page.locator("#cg").filter(has_not_text=cg).wait_for()
    assert "at_mm = [400, -44]" in (folder / "aeroplane.toml").read_text(encoding="utf-8")


def test_a_weigh_in_is_entered_on_a_phone(chromium: Browser, link: str, folder: Path) -> None:
    """At 390 px the form fits, its fields are large enough for a glove, and it is written."""
    page = entered(chromium, link, 390, 844, has_touch=True)
    at(page, "/weigh-in")
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    fields = page.locator(".big-field")
    for number in range(fields.count()):
        box = fields.nth(number).bounding_box()
        assert box is not None
        assert box["height"] >= 56
        name = fields.nth(number).get_attribute("name") or ""
        fields.nth(number).fill("1565" if "nose" in name else "5900")
    page.locator("button.sign").click()
    wait_for_revision(page, "r2")
    assert "reading_g = 1565" in (folder / "measurements.toml").read_text(encoding="utf-8")
    assert "weigh-in-1" in page.locator("main").inner_text()
    page.context.close()


def test_a_field_is_refused_where_it_was_typed(page: Page) -> None:
    """A value that cannot stand is told at its field, and stays there to be put right."""
    at(page, "/description?table=item&row=rx-pack-left")
    page.locator("#f-turn_deg").fill("45")
    page.locator("#f-turn_deg").press("Enter")
    page.wait_for_selector("#f-turn_deg-wrong")
    assert "multiple of 90" in page.locator("#f-turn_deg-wrong").inner_text()
    assert page.locator("#f-turn_deg").input_value() == "45"


def test_a_slip_in_the_text_is_told_while_typing(page: Page, folder: Path) -> None:
    """A fault typed into the text shows beside it before anything is written."""
    at(page, "/text")
    before = (folder / "aeroplane.toml").read_bytes()
    page.locator("#text").press("Control+Home")
    page.locator("#text").press_sequentially("nonsense\n")
    page.locator("#notes .problems").wait_for()
    assert "aeroplane.toml:1" in page.locator("#notes").inner_text()
    assert (folder / "aeroplane.toml").read_bytes() == before


@pytest.mark.parametrize("width", [1440, 390])
def test_verdict_drawing_and_worst_finding_are_seen_at_once(chromium: Browser, shown: Shown, width: int) -> None:
    """On a desk's screen nothing has to be scrolled for them; a phone shows the verdict first."""
    page = entered(chromium, shown[0], width, 900, storage_state=shown[1])
    wanted = [".worst", ".views svg", "#finding-1", ".stages", "#title-block"] if width == 1440 else [".worst"]
    for one in wanted:
        box = page.locator(one).bounding_box()
        assert box is not None
        assert box["y"] + (box["height"] if one != "#finding-1" else 60) <= 901, one
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.context.close()


@pytest.mark.slow
@pytest.mark.parametrize("width", [1440, 390])
def test_no_page_breaks_the_guidelines(chromium: Browser, shown: Shown, width: int) -> None:
    """An accessibility checker finds no violation of WCAG 2.2 AA on any page, on light or dark paper.

    A picture of each is kept, to be looked at.
    """
    SHOTS.mkdir(parents=True, exist_ok=True)
    page = entered(chromium, shown[0], width, 900, storage_state=shown[1], bypass_csp=True)
    tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
    found: dict[str, Any] = {}
    for path in PATHS:
        at(page, path)
        page.evaluate("document.fonts.ready")
        page.evaluate(AXE)
        name = "".join(one if one.isalnum() else "-" for one in path).strip("-") or "first"
        for paper, run in (("light", tags), ("dark", ["color-contrast"])):
            page.emulate_media(color_scheme=paper)  # type: ignore[arg-type]
            page.screenshot(path=SHOTS / f"{name}-{width}-{paper}.png", full_page="text" not in path)
            result = page.evaluate("names => axe.run(document, {runOnly: names})", run)
            found |= {f"{path} {paper} {one['id']}": [node["target"] for node in one["nodes"]][:3]
                      for one in result["violations"]}  # fmt: skip
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path
    page.context.close()
    assert found == {}
