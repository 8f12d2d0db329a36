"""The application: which address leads where, and what lives as long as it does."""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import AsyncIterator, Mapping
from typing import Any

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import (
    HTMLResponse,
    JSONResponse,
    PlainTextResponse,
    RedirectResponse,
    Response,
    StreamingResponse,
)
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp

from hardstand.workbench.actions import ACTIONS
from hardstand.workbench.actions.trying import tried
from hardstand.workbench.answering import Worker, asked_at, page_response, with_outcome
from hardstand.workbench.asked import Asked
from hardstand.workbench.bench import Bench
from hardstand.workbench.bodies import form_of
from hardstand.workbench.gate import Gate
from hardstand.workbench.guard import TOO_LARGE, Guard, TooLargeError
from hardstand.workbench.hub import Hub
from hardstand.workbench.outcome import Outcome
from hardstand.workbench.outcomes import Outcomes
from hardstand.workbench.pages import PAGES
from hardstand.workbench.preferences import PAPERS, UNITS, preferences_of
from hardstand.workbench.static_files import FOLDERS
from hardstand.workbench.templating import rendered
from hardstand.workbench.watching import watching

_YEAR_S = 365 * 24 * 3600
_FULL = "More pages are open than this program serves at once. Close one, and load this one again."


class Rooms:
    """The endpoints, with the bench that they all work on."""

    def __init__(self, bench: Bench, gate: Gate) -> None:
        self.bench, self.gate = bench, gate
        self.hub, self.worker, self.outcomes = Hub(), Worker(), Outcomes()

    async def page(self, request: Request) -> Response:
        """A page, as it is in the folder now."""
        if await self.worker.run(self.bench.refresh):
            self.hub.tell(self.bench.now.revision)
        asked = asked_at(self.bench, str(request.url), request.cookies)
        outcome = self.outcomes.kept(asked.query.get("said", ""))
        if outcome is not None:
            asked = with_outcome(asked, outcome, {})
        return await page_response(self.worker, asked, request)

    async def nowhere(self, request: Request) -> Response:
        """The page for an address that leads nowhere."""
        asked = Asked(self.bench, request.url.path[:80], {}, preferences_of(request.cookies))
        return await page_response(self.worker, asked, request)

    async def action(self, request: Request) -> Response:
        """Do what a form asks, then show the page it came from."""
        values = await form_of(request)
        act = ACTIONS[request.url.path]
        outcome = await self.worker.run(lambda: act(self.bench, values))
        try:
            return await self._answer(request, values, outcome)
        finally:  # whoever asked is answered first
            if outcome.made:
                self.hub.tell(self.bench.now.revision)

    async def _answer(self, request: Request, values: dict[str, str], outcome: Outcome) -> Response:
        back = values.get("then", "") if outcome.made and "then" in values else values.get("back", "/")
        asked = asked_at(self.bench, back, request.cookies)
        if request.headers.get("hx-request") == "true" or not outcome.made:
            return await page_response(
                self.worker, with_outcome(asked, outcome, values), request, values
            )
        said = self.outcomes.keep(outcome)
        return RedirectResponse(f"{asked.address}{'&' if asked.query else '?'}said={said}", 303)

    async def trial(self, request: Request) -> Response:
        """What a change would do, as figures for a page that is dragging; nothing is written."""
        values = await form_of(request)
        form, status = await self.worker.run(lambda: tried(self.bench, values, request.cookies))
        return JSONResponse(form, status)

    async def work(self, request: Request) -> Response:
        """How far long work is, for a page that shows it; a word to that page once it is done."""
        units = preferences_of(request.cookies).units
        kind = request.query_params.get("of", "")
        standing = (self.bench.comparing if kind == "options" else self.bench.seeking).now
        if standing.phase != "working":
            return Response(status_code=204, headers={"HX-Trigger": "work-ended"})
        return HTMLResponse(rendered("work.html", {"work": standing, "units": units}))

    async def events(self, request: Request) -> Response:
        """The stream that tells a page when the aeroplane has changed."""
        del request
        if self.hub.full:
            return PlainTextResponse(_FULL, 503)
        return StreamingResponse(self.hub.events(), media_type="text/event-stream")

    async def preferences(self, request: Request) -> Response:
        """Units and paper, kept in the browser."""
        values = await form_of(request)
        back = asked_at(self.bench, values.get("back", "/"), {}).address
        answer = RedirectResponse(back, 303)
        for name, known in (("units", UNITS), ("paper", PAPERS)):
            if values.get(name) in known:
                answer.set_cookie(f"hardstand-{name}", values[name], max_age=_YEAR_S,
                                  samesite="strict", httponly=True)  # fmt: skip
        return answer

    async def door(self, request: Request) -> Response:
        """The way in for a browser that has no session: the code of the terminal's link."""
        if request.method == "POST":
            values = await form_of(request)
            session = self.gate.enter(values.get("code", "")[:200])
            if session is not None:
                answer = RedirectResponse("/", 303)
                answer.set_cookie(self.gate.cookie, session, samesite="strict", httponly=True)
                return answer
        if request.scope["hardstand.known"]:
            return RedirectResponse("/", 303)
        return HTMLResponse(rendered("enter.html", {"refused": request.method == "POST"}), 403)


def make_app(bench: Bench, gate: Gate) -> ASGIApp:
    """The application over one aeroplane, with its guard around it."""
    rooms = Rooms(bench, gate)

    @contextlib.asynccontextmanager
    async def lifespan(_: Starlette) -> AsyncIterator[Mapping[str, Any]]:
        loop = asyncio.get_running_loop()
        for one in (bench.seeking, bench.comparing):
            one.listen(lambda: _told(loop, rooms.hub))
        async with watching(bench, rooms.hub, rooms.worker):
            try:
                yield {}
            finally:
                bench.close()

    routes = [
        *(Route(path, rooms.page, methods=["GET"]) for path in PAGES),
        *(Route(path, rooms.action, methods=["POST"]) for path in ACTIONS),
        Route("/try", rooms.trial, methods=["POST"]),
        Route("/work", rooms.work, methods=["GET"]),
        Route("/events", rooms.events, methods=["GET"]),
        Route("/preferences", rooms.preferences, methods=["POST"]),
        Route("/enter", rooms.door, methods=["GET", "POST"]),
        *(Mount(path, StaticFiles(directory=folder)) for path, folder in FOLDERS.items()),
        Route("/{rest:path}", rooms.nowhere, methods=["GET"]),
    ]
    failures: Mapping[Any, Any] = {
        ValueError: _no_form, TooLargeError: _too_large, HTTPException: _not_here}  # fmt: skip
    return Guard(Starlette(routes=routes, lifespan=lifespan, exception_handlers=failures), gate)


def _told(loop: asyncio.AbstractEventLoop, hub: Hub) -> None:
    """Tell pages of long work, from the thread that watches it; nothing once the program ends."""
    with contextlib.suppress(RuntimeError):
        loop.call_soon_threadsafe(hub.tell_of_work)


async def _no_form(_: Request, error: Exception) -> Response:
    why = "it is no text in UTF-8" if isinstance(error, UnicodeError) else error
    return PlainTextResponse(f"That could not be read: {why}. Go back, and look at what was sent.", 400)


async def _too_large(_: Request, __: Exception) -> Response:
    return PlainTextResponse(TOO_LARGE, 413)


async def _not_here(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    what = ("That cannot be asked for in this way" if error.status_code == 405
            else f"There is nothing at {request.url.path[:80]}")  # fmt: skip
    return PlainTextResponse(f"{what}. Go back to the first page, at /.", error.status_code, error.headers)
