"""Bodies of requests: forms and small JSON, read whole and checked for their shape."""

from __future__ import annotations

import json
from typing import Any
from urllib.parse import parse_qsl

from starlette.requests import Request

MOST_FIELDS = 200


async def form_of(request: Request) -> dict[str, str]:
    """The fields of a form; raises ValueError for anything that is none."""
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind != "application/x-www-form-urlencoded":
        raise ValueError("a form was expected")
    body = (await request.body()).decode()
    return dict(parse_qsl(body, keep_blank_values=True, max_num_fields=MOST_FIELDS))


def json_in(text: str) -> Any:
    """A value as JSON holds it; raises ValueError."""
    try:
        return json.loads(text)
    except RecursionError:
        raise ValueError("that is nested too deeply") from None
