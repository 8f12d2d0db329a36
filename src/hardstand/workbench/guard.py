"""What every request has to pass before a page sees it, and what every answer carries.

A page of another origin can make a browser ask this program for things. So the Host must be one of
ours, whatever alters must come from a page of ours, and all but the door asks for a session.
"""

from __future__ import annotations

from http.cookies import CookieError, SimpleCookie
from typing import TYPE_CHECKING

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

    from hardstand.workbench.gate import Gate

LARGEST_BODY, LONGEST_TARGET = 4_000_000, 4096  # bytes
TOO_LARGE = "That is larger than any aeroplane's file. Send less at once."
OPEN = ("/enter", "/static/", "/look/")  # what a browser may have without a session
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
}


class TooLargeError(Exception):
    """A body that is larger than anything a page of ours sends."""


class Guard:
    """ASGI middleware around the whole application."""

    def __init__(self, app: ASGIApp, gate: Gate) -> None:
        self.app, self.gate = app, gate

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or answer it with what is wrong."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":  # there is nothing here that speaks otherwise
            await send({"type": "websocket.close", "code": 1008})
            return
        headers = Headers(scope=scope)
        send = _with_headers(send)
        status, words = self._refusal(scope, headers)
        if status:
            await PlainTextResponse(words, status)(scope, receive, send)
            return
        scope["hardstand.session"] = session = _session(headers, self.gate.cookie)
        scope["hardstand.known"] = self.gate.knows(session)
        if not scope["hardstand.known"] and not scope["path"].startswith(OPEN):
            scope = {**scope, "path": "/enter", "raw_path": b"/enter", "method": "GET"}
        await self.app(scope, _limited(receive), send)

    def _refusal(self, scope: Scope, headers: Headers) -> tuple[int, str]:
        host = headers.get("host", "")
        if headers.getlist("host") != [host] or host not in self.gate.hosts:
            return 421, "This program does not answer to that name. Use the link that its terminal shows."
        if len(scope.get("raw_path") or b"") + len(scope.get("query_string", b"")) > LONGEST_TARGET:
            return 414, "That address is too long. Go back, and take a link of the page."
        if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
            return 403, "Another page asked for this. Type the address, or use the terminal's link."
        return (0, "") if scope["method"] in ("GET", "HEAD") else _altering(scope, headers)


def _altering(scope: Scope, headers: Headers) -> tuple[int, str]:
    """What is wrong with a request that would alter something; 0 where nothing is."""
    if scope["method"] != "POST":
        return 405, "There is only reading and posting here. Use the pages of the workbench."
    if headers.get("origin") != f"http://{headers.get('host')}":
        return 403, "This can only be done from a page of the workbench itself. Open it by the terminal's link."
    size = headers.get("content-length", "0")
    if not _small(size):
        return 413, TOO_LARGE
    return 0, ""


def _small(size: str) -> bool:
    """Whether a told length is one that a page of ours sends: digits of ASCII, and few of them."""
    return size.isascii() and size.isdigit() and len(size) < 20 and int(size) <= LARGEST_BODY


def _session(headers: Headers, name: str) -> str:
    try:
        found = SimpleCookie(headers.get("cookie", "")).get(name)
    except CookieError:
        return ""
    return found.value if found else ""


def _limited(receive: Receive) -> Receive:
    taken = 0

    async def receive_some() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > LARGEST_BODY:
            raise TooLargeError
        return message

    return receive_some


def _with_headers(send: Send) -> Send:
    async def send_with(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers[name] = value
            headers.setdefault("Cache-Control", "no-store")
        await send(message)

    return send_with
