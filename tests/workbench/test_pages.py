"""Every page, in both systems of units, from a readable and from an unreadable aeroplane."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from hardstand.views.drawing.headings import tally_words
from hardstand.workbench.pages import PAGES
from tests.small_aeroplane import laid_out
from tests.workbench.asking import ORIGIN, Browser, browser, demo, words

ASKED = ("/", "/trays?tray=main-tray", "/trays?item=rx-pack-left", "/layouts", "/options", "/balance",
         "/balance?state=takeoff",
         "/weigh-in", "/stage?name=fit", "/stage?name=fuel", "/description", "/description?table=item",
         "/description?table=item&row=rx-pack-left", "/description?table=cg_mark",
         "/description?table=option&row=two-hubs", "/text", "/text?file=parts/own.toml&line=12", "/history",
         "/trace?of=balance.cg@ref", "/trace?of=mass.fin.mass_g", "/rule?code=balance.cg-range")  # fmt: skip


@pytest.fixture(scope="module")
def inside(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """A browser on the demo's first layout."""
    with browser(demo(tmp_path_factory.mktemp("demo"))) as made:
        yield made


@pytest.mark.parametrize("path", ASKED)
def test_every_page_is_made(inside: Browser, path: str) -> None:
    """Each page is there or says what is not, names the aeroplane and carries the caution sentence."""
    answer = inside.get(path)
    assert answer.status_code in (200, 404)
    assert "come before anything printed here" in answer.text
    assert "arnwing" in answer.text


def test_every_kind_of_page_is_asked_for() -> None:
    """The list above leaves out no page."""
    assert {urlsplit(one).path for one in ASKED} == set(PAGES)


def test_no_link_is_dead(inside: Browser) -> None:
    """Whatever the pages link to within the workbench is there."""
    seen: set[str] = set()
    for path in ("/", "/trays", "/layouts", "/options", "/balance", "/description?table=item&row=rx-pack-left", "/text",
                 "/history", "/trace?of=balance.cg@ref", "/rule?code=balance.cg-range"):  # fmt: skip
        links = re.findall(r'href="([^"#]+)', inside.get(path).text)
        seen |= {one.replace("&amp;", "&") for one in links}
    families: dict[str, list[str]] = {}
    for one in sorted(seen):
        families.setdefault(one.partition("=")[0], []).append(one)
    for some in families.values():
        for one in some[:4]:
            assert inside.get(one).status_code == 200, one


def test_the_first_page_says_the_worst_and_what_to_do(inside: Browser) -> None:
    """The verdict, the worst finding with its remedy, and every stage stand on the first page."""
    said = words(inside.get("/").text)
    assert tally_words(inside.bench.held().assessment)[0] in said
    assert "Next" in said
    assert "balance.cg-range" in said
    assert "not assessed" in said
    assert not re.search(r"\bis safe\b(?!\.)", said)


def test_no_page_styles_or_scripts_inline(inside: Browser) -> None:
    """What the policy forbids is in no page: no style in the markup, no script, no handler."""
    for path in ASKED:
        text = inside.get(path).text
        assert not re.search(r"\sstyle=|<style|\son[a-z]+=|<script(?![^>]+src=)", text), path


def test_nothing_is_fetched_from_elsewhere(inside: Browser) -> None:
    """No page names another host."""
    for path in ASKED:
        for address in re.findall(r'(?:src|href|action|hx-get|hx-post)="([^"]*)"', inside.get(path).text):
            assert not urlsplit(address).netloc, address


def test_ids_are_given_once(inside: Browser) -> None:
    """No two elements of a page have one id."""
    for path in ASKED:
        ids = re.findall(r'\sid="([^"]+)"', inside.get(path).text)
        assert len(ids) == len(set(ids)), path


def test_imperial_shows_the_same_figures_in_inches(inside: Browser) -> None:
    """The preference alters what is shown, not what is known."""
    inside.post("/preferences", data={"units": "imperial"}, headers={"origin": ORIGIN})
    said = words(inside.get("/balance").text)
    inside.post("/preferences", data={"units": "metric"}, headers={"origin": ORIGIN})
    assert " in behind the mark" in said
    assert " lb" in said


def test_paper_is_dark_where_it_is_chosen(inside: Browser) -> None:
    """The choice of paper is carried by the page."""
    inside.post("/preferences", data={"paper": "dark"}, headers={"origin": ORIGIN})
    assert 'data-paper="dark"' in inside.get("/").text
    inside.post("/preferences", data={"paper": "system"}, headers={"origin": ORIGIN})
    assert "data-paper" not in inside.get("/").text


def test_an_aeroplane_that_cannot_be_read_shows_why(tmp_path: Path) -> None:
    """Every page shows the problems with their lines; the text can still be put right."""
    with browser(laid_out(tmp_path / "heron", "format = 1\n[aeroplane]\nnmae = 'x'\n")) as made:
        for path in PAGES:
            answer = made.get(path)
            assert answer.status_code in (200, 422), path
            assert "nmae" in answer.text or path == "/history"
        page = made.get("/text").text
        sha256 = re.search(r'name="sha256" value="(\w+)"', page)
        assert sha256 is not None
        status, _ = made.do("/text", file="aeroplane.toml", sha256=sha256[1],
                            text="format = 1\n[aeroplane]\nname = 'x'\n")  # fmt: skip
        assert status == 200
        assert made.get("/").status_code == 200


def test_a_script_gets_the_parts_that_it_swaps(inside: Browser) -> None:
    """A request of the page's script is answered with marked parts, without what it leaves out."""
    text = inside.get("/balance?leave=drawing", headers={"hx-request": "true"}).text
    assert "<html" not in text
    assert text.count("hx-swap-oob") == 3
    assert 'id="notes"' in text
    assert 'id="drawing"' not in text
