"""Adding and taking out whole rows and tables of a TOML text, with the comments that are theirs.

A row is its header with every line up to the next header or the first blank line after its last
value, and the block of comment lines directly above the header. What stands apart, separated by
blank lines, belongs to nobody and stays.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from hardstand.description.rendering import NotWritableError, render, render_key
from hardstand.description.scan import Node, Path
from hardstand.description.splices import Splice, Values

_LINE = re.compile(r"[^\n]*(?:\n|$)")
_BLANK_LINES = re.compile(r"(?:[ \t]*\r?\n)*(?:[ \t]*$)?")


def add_table(values: Values, header: str, fields: Mapping[str, Any], after: Path) -> Splice:
    """A table with its header put in after the one at path `after`, or at the end of the text.

    `header` is as it stands in the text, such as `[[item]]`. A blank line is kept on both sides.
    Numbers take the style of the same field in the table at `after`.
    """
    text = values.text
    lines = [f"{render_key(key)} = {render(value, values.style((*after, key)))}"
             for key, value in fields.items()]  # fmt: skip
    block = "\n".join([header, *lines]) + "\n"
    sections = [span for span in _spans(values) if _is_under(span[0].path, after)]
    place = sections[-1][2] if sections and after else len(text)
    before, rest = text[:place], text[place:]
    if before and not before.endswith("\n"):
        block = f"\n{block}"
    if before.strip() and not re.search(r"\n[ \t]*\r?\n$", before):
        block = f"\n{block}"
    if rest and not re.match(r"[ \t]*\r?\n", rest):
        block = f"{block}\n"
    return (place, place, block)


def cut_table(values: Values, path: Path) -> Iterator[Splice]:
    """The header at `path`, its lines and the tables under it, cut out with their comments."""
    text = values.text
    spans = [span for span in _spans(values) if _is_under(span[0].path, path)]
    if not spans:
        raise NotWritableError("this row is not written under a heading of its own")
    end = 0
    for _, start, stop in spans:
        blank = _BLANK_LINES.match(text, stop)
        first = max(start, end)
        at_top = not text[:first].strip()
        apart = re.search(r"(?:^|\n)[ \t]*\r?\n$", text[:first]) is not None
        end = blank.end() if blank and (at_top or apart) else stop
        if not text[end:].strip():  # the last table: the blank lines before it go as well
            first = len(text[:first].rstrip()) + len(_first_newline(text[:first]))
            end = len(text)
        yield (first, end, "")


def _first_newline(before: str) -> str:
    """The newline that ends the last line with something on it."""
    match = re.match(r"[ \t]*(\r?\n)", before[len(before.rstrip()) :])
    return match[0] if match else ""


def _spans(values: Values) -> Iterator[tuple[Node, int, int]]:
    """Each header with where its comment block begins and its last own line ends."""
    text = values.text
    headers = [node for node in values.nodes if node.kind == "table"]
    starts = [_block_start(text, header.start) for header in headers]
    last_end = {id(header): header.end for header in headers}
    current = None
    for node in values.nodes:
        if node.kind == "table":
            current = node
        elif current is not None:
            last_end[id(current)] = max(last_end[id(current)], node.end)
    for i, header in enumerate(headers):
        limit = starts[i + 1] if i + 1 < len(starts) else len(text)
        end = _line_end(text, last_end[id(header)])
        while end < limit and text[end:limit].lstrip(" \t").startswith("#"):
            end = _line_end(text, end)
        yield header, starts[i], end


def _block_start(text: str, header: int) -> int:
    """Where the comment lines directly above a header begin, or its own line if there are none."""
    start = text.rfind("\n", 0, header) + 1
    while start > 0:
        above = text.rfind("\n", 0, start - 1) + 1
        if not text[above:start].lstrip().startswith("#"):
            break
        start = above
    return start


def _line_end(text: str, place: int) -> int:
    match = _LINE.match(text, place)
    return match.end() if match else len(text)


def _is_under(path: Path, above: Path) -> bool:
    return path[: len(above)] == above
