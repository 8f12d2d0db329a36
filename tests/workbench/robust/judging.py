"""What must hold of every answer, whatever was asked."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from hardstand.workbench.guard import HEADERS
from tests.workbench.robust.calling import Answer, Call

SECRET = "kept-from-everyone"  # noqa: S105 what stands in a file beside the aeroplane
Seen = dict[str, tuple[int, int, int]]


def state_of(folder: Path) -> Seen:
    """Every file of a folder that holds words of the builder or of the history, as the system knows it."""
    found = {}
    for one in sorted(folder.rglob("*")):
        if one.is_file() and one.name not in ("lock", "workbench"):
            seen = one.stat()
            found[str(one)] = (seen.st_mtime_ns, seen.st_size, seen.st_ino)
    return found


def wrongs(call: Call, answer: Answer, *, changed: bool, told: bool) -> Iterator[str]:
    """What is wrong with an answer. `changed` says whether a file changed, `told` whether the state did."""
    if answer.raised:
        yield f"raised {answer.raised}"
        return
    if not 200 <= answer.status < 500:
        yield f"status {answer.status}: {answer.text[:200]}"
    yield from _of_what_it_carries(answer)
    if call.method != "POST" and (changed or told):
        yield "what only reads has altered something"
    if answer.status >= 400 and changed:
        yield f"refused with {answer.status}, yet written"
    if answer.status >= 400 and call.method != "HEAD":
        yield from _of_words(answer)


def _of_what_it_carries(answer: Answer) -> Iterator[str]:
    missing = [one for one in HEADERS if answer.headers.get(one.lower()) != [HEADERS[one]]]
    if missing or "cache-control" not in answer.headers:
        yield f"headers missing: {missing or 'Cache-Control'}"
    if SECRET in answer.text or "root:x:0" in answer.text:
        yield "another folder's file was shown"
    if "Traceback" in answer.text:
        yield "a traceback"
    if answer.status == 303 and not re.match(r"/(?![/\\])", answer.headers.get("location", [""])[0]):
        yield f"sent elsewhere: {answer.headers.get('location')}"


def _of_words(answer: Answer) -> Iterator[str]:
    """A refusal says what is wrong and what to do: two sentences, or a page with something to go on with."""
    if answer.headers.get("content-type", [""])[0].startswith("application/json"):
        text = answer.text
        if not re.search(r'"trouble": ?"[^"]{12,}', text):
            yield f"{answer.status} without words: {text[:100]}"
    elif "<" in answer.text:
        text = " ".join(re.sub(r"<[^>]+>", " ", answer.text).split())
        if len(text.split()) < 8 or ("href=" not in answer.text and "<form" not in answer.text
                                     and "Do this" not in text and "outcome refused" not in answer.text):  # fmt: skip
            yield f"{answer.status} says too little: {text[:100]}"
    elif not re.search(r"\w{2,}.*\. [A-Z]\w+.*\.$", answer.text, re.DOTALL):
        yield f"{answer.status} does not say what to do: {answer.text[:100]!r}"
