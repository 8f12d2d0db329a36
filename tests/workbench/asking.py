"""A browser that has come in, for the tests: requests as a page of the workbench sends them."""

from __future__ import annotations

import asyncio
import re
import shutil
from pathlib import Path
from typing import Any, Self

import httpx

import hardstand
from hardstand.description.storage import Folder
from hardstand.workbench import Bench, Gate, make_app

ORIGIN = "http://127.0.0.1:8620"
DEMO = Path(hardstand.__file__).parent / "data" / "demo"


class Browser:
    """A browser over the application, without a network between: it keeps cookies, follows nothing.

    Its posts through `do` carry the origin of the page, as a browser's do.
    """

    def __init__(self, folder: Path, options: tuple[str, ...] = ()) -> None:
        self.bench = Bench(Folder(folder), options)
        self.gate = Gate([ORIGIN, "http://localhost:8620"])
        transport = httpx.ASGITransport(app=make_app(self.bench, self.gate))
        self._client = httpx.AsyncClient(transport=transport, base_url=ORIGIN)
        self._loop = asyncio.new_event_loop()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.bench.close()
        self._loop.run_until_complete(self._client.aclose())
        self._loop.run_until_complete(self._loop.shutdown_default_executor())
        self._loop.close()

    def request(self, method: str, path: str, **given: Any) -> httpx.Response:
        """One request and its answer."""
        return self._loop.run_until_complete(self._client.request(method, path, **given))

    def get(self, path: str, **given: Any) -> httpx.Response:
        """Read a page."""
        return self.request("GET", path, **given)

    def post(self, path: str, **given: Any) -> httpx.Response:
        """Post a form."""
        return self.request("POST", path, **given)

    def do(self, path: str, *, parts: bool = False, **values: str) -> tuple[int, str]:
        """Post a form and follow it to the page that it leads to; its status and text."""
        headers = {"origin": ORIGIN} | ({"hx-request": "true"} if parts else {})
        answer = self.post(path, data=values, headers=headers)
        if answer.status_code == 303:
            answer = self.get(answer.headers["location"])
        return answer.status_code, answer.text

    def submit(self, path: str, values: dict[str, str]) -> tuple[int, str]:
        """Post a form whose fields have names of their own."""
        return self.do(path, parts=False, **values)


def browser(folder: Path, options: tuple[str, ...] = ()) -> Browser:
    """A browser that the terminal has let in."""
    made = Browser(folder, options)
    answer = made.post("/enter", data={"code": made.gate.code}, headers={"origin": ORIGIN})
    assert answer.status_code == 303
    return made


def demo(folder: Path, moment: str = "s0") -> Path:
    """A copy of the demo aeroplane that may be written in."""
    target = folder / "tarnwing"
    shutil.copytree(DEMO / moment, target, copy_function=shutil.copyfile)
    return target


def words(html: str) -> str:
    """What a page says: its text without tags, on one line."""
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())
