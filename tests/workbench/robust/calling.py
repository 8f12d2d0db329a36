"""Requests put to the application as the server would put them, byte for byte, with no client between."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from starlette.types import ASGIApp, Message

FORM = "application/x-www-form-urlencoded"


@dataclass(frozen=True)
class Call:
    """One request: `route` is what it counts for, `why` what is wrong with it, empty for nothing."""

    route: str
    method: str
    path: str
    query: bytes = b""
    headers: Sequence[tuple[bytes, bytes]] = ()
    pieces: Sequence[bytes] = (b"",)
    why: str = ""

    def __str__(self) -> str:
        body = b"".join(self.pieces)
        headers = [one for one in self.headers if one[0] != b"cookie" or self.why == "session"]
        return (f"{self.method} {self.path[:80]!r} ?{self.query[:120]!r} {headers!r} "
                f"{body[:400]!r} ({self.why or 'valid'})")  # fmt: skip


@dataclass
class Answer:
    """What came back; `raised` is what the application let out instead."""

    status: int = 0
    headers: dict[str, list[str]] = field(default_factory=dict)
    body: bytes = b""
    raised: str = ""

    @property
    def text(self) -> str:
        """The body as text."""
        return self.body.decode("utf-8", "replace")


async def put(app: ASGIApp, call: Call) -> Answer:
    """The answer to a call; a stream of events is left after its first words, as by a closed page."""
    answer, waiting = Answer(), list(call.pieces)
    leave = asyncio.Event()

    async def receive() -> Message:
        if waiting:
            piece = waiting.pop(0)
            return {"type": "http.request", "body": piece, "more_body": bool(waiting)}
        await leave.wait()
        return {"type": "http.disconnect"}

    async def send(message: Message) -> None:
        if message["type"] == "http.response.start":
            answer.status = message["status"]
            for name, value in message["headers"]:
                answer.headers.setdefault(name.decode("latin-1").lower(), []).append(value.decode("latin-1"))
            return
        answer.body += message.get("body", b"")
        if answer.headers.get("content-type", [""])[0].startswith("text/event-stream"):
            leave.set()

    scope: dict[str, Any] = {
        "type": "http", "asgi": {"version": "3.0", "spec_version": "2.3"}, "http_version": "1.1",
        "method": call.method, "scheme": "http", "path": call.path, "root_path": "",
        "raw_path": call.path.encode("utf-8", "surrogateescape"), "query_string": call.query,
        "headers": list(call.headers), "client": ("127.0.0.1", 50000), "server": ("127.0.0.1", 8620),
    }  # fmt: skip
    try:
        await app(scope, receive, send)
    except Exception as error:  # noqa: BLE001 whatever comes out is the fault that is looked for
        answer.raised = f"{type(error).__name__}: {error}"
    return answer
