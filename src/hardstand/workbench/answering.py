"""From a request to a page: which page, made in a thread of its own, whole or in parts."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, NoReturn, TypeVar
from urllib.parse import parse_qsl, urlsplit

import anyio
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from hardstand.description.problems import UnreadableError
from hardstand.workbench.asked import Asked, NoSuchPageError
from hardstand.workbench.bench import Bench
from hardstand.workbench.outcome import Outcome
from hardstand.workbench.pages import PAGES
from hardstand.workbench.pages.trouble import missing, unreadable
from hardstand.workbench.preferences import preferences_of
from hardstand.workbench.templating import parts, rendered

T = TypeVar("T")
PARTS = ("said", "drawing", "notes", "title_block")
LANES = 2  # pages made at once; more would only share the processor


class Worker:
    """Does the work of requests outside the event loop, a bounded number at once."""

    def __init__(self) -> None:
        self._limiter = anyio.CapacityLimiter(LANES)

    async def run(self, work: Callable[[], T]) -> T:
        """Do work and return its result."""
        return await anyio.to_thread.run_sync(work, limiter=self._limiter)


def asked_at(bench: Bench, address: str, cookies: Mapping[str, str]) -> Asked:
    """The page at an address of ours; an address that is none of ours is the first page."""
    try:
        where = urlsplit(address)
        path, query = where.path, dict(parse_qsl(where.query, max_num_fields=20))
    except ValueError:  # what was done before must still be answered
        path, query = "", {}
    if path not in PAGES:
        path, query = "/", {}
    return Asked(bench, path, query, preferences_of(cookies))


def page_of(asked: Asked, names: tuple[str, ...] = ()) -> tuple[str, int]:
    """A page as HTML, whole or the parts named, and its status."""
    status = asked.outcome.status if asked.outcome else 200
    try:
        template, make = PAGES.get(asked.path, ("missing.html", nowhere))
        page = {"page": make(asked)}
    except UnreadableError as error:
        template, page, status = "unreadable.html", {"page": unreadable(asked, error)}, 422
    except NoSuchPageError as error:
        template, page, status = "missing.html", {"page": missing(asked, error)}, 404
    return (parts(template, page, names) if names else rendered(template, page)), status


def nowhere(asked: Asked) -> NoReturn:
    """What stands at an address that leads nowhere; raises NoSuchPageError."""
    raise NoSuchPageError(f"There is no page at {asked.path}.", "The aeroplane's name leads to the first one.")


async def page_response(
    worker: Worker, asked: Asked, request: Request, values: Mapping[str, Any] | None = None
) -> Response:
    """The answer to a request for a page. A script of ours gets the parts that it swaps."""
    left = (values or request.query_params).get("leave", "").split(",")
    swapping = request.headers.get("hx-request") == "true"
    names = tuple(one for one in PARTS if one not in left) if swapping else ()
    asked = replace(asked, query={key: one for key, one in asked.query.items() if key != "leave"})
    html, status = await worker.run(lambda: page_of(asked, names))
    return HTMLResponse(html, status)


def with_outcome(asked: Asked, outcome: Outcome, typed: Mapping[str, str]) -> Asked:
    """The page as it answers an edit."""
    return replace(asked, outcome=outcome, typed=dict(typed))
