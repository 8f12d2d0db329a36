"""What every request has to pass, and what every answer carries."""

from __future__ import annotations

from collections.abc import AsyncIterator, Iterator
from pathlib import Path

import pytest

from hardstand.workbench.guard import LARGEST_BODY
from hardstand.workbench.pages import PAGES
from tests.small_aeroplane import laid_out
from tests.workbench.asking import ORIGIN, Browser, browser

CHANGE = {"address": "item.rx.at_mm", "old": "[260, 0]", "new": "[261, 0]"}


@pytest.fixture
def inside(tmp_path: Path) -> Iterator[Browser]:
    """A browser that has come in."""
    with browser(laid_out(tmp_path / "heron")) as made:
        yield made


@pytest.fixture
def outside(tmp_path: Path) -> Iterator[Browser]:
    """A browser that has not."""
    with Browser(laid_out(tmp_path / "heron")) as made:
        yield made


@pytest.mark.parametrize("path", [*PAGES, "/events", "/nothing"])
def test_without_a_session_there_is_only_the_door(outside: Browser, path: str) -> None:
    """Whatever is asked for without a session is answered by the way in, and names no aeroplane."""
    answer = outside.get(path)
    assert answer.status_code == 403
    assert "Heron" not in answer.text
    assert "Code" in answer.text


@pytest.mark.parametrize("path", ["/change", "/undo", "/text", "/try", "/weigh-in", "/preferences"])
def test_without_a_session_nothing_is_altered(outside: Browser, path: str) -> None:
    """A post without a session reaches the door and nothing else."""
    answer = outside.post(path, data=CHANGE, headers={"origin": ORIGIN})
    assert answer.status_code == 403
    assert (outside.bench.folder.path / "aeroplane.toml").read_text().count("[260, 0]") == 1


@pytest.mark.parametrize("host", ["evil.example", "evil.example:8620", "127.0.0.1", "127.0.0.1:1", ""])
def test_another_name_is_not_answered(inside: Browser, host: str) -> None:
    """A name that another site could point at this machine is refused, with a session or without."""
    assert inside.get("/", headers={"host": host}).status_code == 421


@pytest.mark.parametrize("origin", [None, "null", "http://evil.example", "https://127.0.0.1:8620",
                                    "http://127.0.0.1:8621", "http://localhost:8620"])  # fmt: skip
def test_a_page_of_another_origin_alters_nothing(inside: Browser, origin: str | None) -> None:
    """A post is only taken from a page of the same origin."""
    headers = {"origin": origin} if origin else {}
    assert inside.post("/change", data=CHANGE, headers=headers).status_code == 403
    assert inside.bench.now.revision == "r1"


def test_what_another_site_fetches_is_refused(inside: Browser) -> None:
    """A browser says that another site asked, and is not served."""
    assert inside.get("/", headers={"sec-fetch-site": "cross-site"}).status_code == 403
    assert inside.get("/", headers={"sec-fetch-site": "none"}).status_code == 200


@pytest.mark.parametrize("path", ["/change", "/field", "/remedy", "/undo", "/redo", "/text", "/try",
                                  "/preferences"])  # fmt: skip
def test_reading_alters_nothing(inside: Browser, path: str) -> None:
    """What alters cannot be reached by GET; only the weigh-in has a page of the same address."""
    inside.get(path, params=CHANGE)
    assert inside.bench.now.revision == "r1"


@pytest.mark.parametrize("method", ["PUT", "DELETE", "OPTIONS", "PATCH"])
def test_other_methods_are_refused(inside: Browser, method: str) -> None:
    """There is only reading and posting."""
    assert inside.request(method, "/").status_code == 405


async def _in_pieces(pieces: list[bytes]) -> AsyncIterator[bytes]:
    for one in pieces:
        yield one


def test_a_large_body_is_refused(inside: Browser) -> None:
    """A body that is larger than any file of an aeroplane is refused, told or untold."""
    headers = {"origin": ORIGIN, "content-type": "application/x-www-form-urlencoded"}
    told = inside.post("/text", content=b"x" * (LARGEST_BODY + 1), headers=headers)
    assert told.status_code == 413
    untold = inside.post("/text", content=_in_pieces([b"x" * LARGEST_BODY, b"x"]), headers=headers)
    assert untold.status_code == 413


def test_a_long_address_is_refused(inside: Browser) -> None:
    """An address that no page of ours has is not looked at."""
    assert inside.get("/trace?of=" + "x" * 5000).status_code == 414


def test_a_body_that_is_no_form_is_refused(inside: Browser) -> None:
    """JSON, or nothing that can be read, is refused with a sentence."""
    form = "application/x-www-form-urlencoded"
    for kind, body in (("application/json", "{}"), (form, "old=]&address=item.rx.at_mm")):
        answer = inside.post("/change", content=body, headers={"origin": ORIGIN, "content-type": kind})
        assert answer.status_code == 400


@pytest.mark.parametrize("path", ["/", "/static/sheet.css", "/enter", "/nothing"])
def test_every_answer_carries_the_policy(inside: Browser, path: str) -> None:
    """No answer lets a browser run, frame or fetch what is not the workbench's own."""
    headers = inside.get(path).headers
    assert "default-src 'none'" in headers["content-security-policy"]
    assert "unsafe" not in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["x-frame-options"] == "DENY"


def test_the_session_is_kept_from_scripts_and_other_sites(tmp_path: Path) -> None:
    """The cookie is HttpOnly and SameSite strict."""
    with Browser(laid_out(tmp_path / "heron")) as made:
        answer = made.post("/enter", data={"code": made.gate.code}, headers={"origin": ORIGIN})
    said = answer.headers["set-cookie"].lower()
    assert "httponly" in said
    assert "samesite=strict" in said


def test_a_wrong_code_leaves_the_door_shut(outside: Browser) -> None:
    """A code that is not the one in force opens nothing and spends nothing."""
    code = outside.gate.code
    answer = outside.post("/enter", data={"code": "guessed"}, headers={"origin": ORIGIN})
    assert answer.status_code == 403
    assert outside.gate.code == code


@pytest.mark.parametrize("file", ["../secret.toml", "/etc/passwd", "parts/../../x.toml", ".hardstand/lock"])
def test_no_file_outside_the_folder_is_shown_or_written(inside: Browser, file: str) -> None:
    """Only files of the description are known by name."""
    assert inside.get("/text", params={"file": file}).status_code == 404
    status, _ = inside.do("/text", file=file, text="x = 1", sha256="")
    assert status in (404, 409)


@pytest.mark.parametrize("path", ["/static/../gate.py", "/static/%2e%2e/gate.py", "/look/..%2f..%2fsecret"])
def test_no_file_outside_the_static_folders_is_served(inside: Browser, path: str) -> None:
    """A path that climbs out of the folder finds nothing."""
    assert inside.get(path).status_code == 404


def test_a_page_is_only_sent_on_to_our_own(inside: Browser) -> None:
    """Wherever a form says that it came from, the answer leads to a page of the workbench."""
    for back in ("//evil.example/", "http://evil.example/", "/nothing", "javascript:alert(1)"):
        answer = inside.post("/undo", data={"back": back}, headers={"origin": ORIGIN})
        place = answer.headers.get("location", "/")
        assert place.startswith("/")
        assert not place.startswith("//")


@pytest.mark.parametrize("told", ["²", "9" * 5000, "1_0", "-1", "+3", "٣"])
def test_a_length_that_is_no_plain_number_is_refused(inside: Browser, told: str) -> None:
    """It is told as too large, in words, and nothing is altered."""
    headers = {"origin": ORIGIN.encode(), "content-length": told.encode("latin-1", "replace")}
    answer = inside.post("/change", content=b"", headers=headers)
    assert answer.status_code == 413
    assert "Send less at once" in answer.text
    assert inside.bench.now.revision == "r1"


@pytest.mark.parametrize("back", ["//[", "/trays?" + "a=1&" * 50, "\\\\", "/nowhere", ""])
def test_an_edit_is_answered_whatever_page_it_says_it_came_from(inside: Browser, back: str) -> None:
    """What was written is told as written, on the first page where there is no other."""
    status, text = inside.submit("/change", CHANGE | {"back": back})
    assert status == 200
    assert inside.bench.now.revision == "r2"
    assert "Written as r2" in text
