"""A tidied text of a description's file: white space only, nothing moved, nothing lost."""

from __future__ import annotations

import re
import tomllib

from hardstand.description.scan import Node, scan

_SPACE_AT_END = re.compile(r"[ \t]+(?=\n|\Z)")
_MOST_BLANK = 2


class NotTidiedError(ValueError):
    """The text does not parse, or tidying would change more than white space."""


def tidied(text: str) -> str:
    r"""The same file with one space round `=`, a blank line before each table, no space at line ends.

    Comments, order, the layout of lists and the newlines stay as they are. Raises NotTidiedError.

    >>> tidied('format=1\n[[item]]\nid =  "hub"  \n# the left one\n[[item]]\n  id="rx"')
    'format = 1\n\n[[item]]\nid = "hub"\n\n# the left one\n[[item]]\nid = "rx"\n'
    """
    newline = "\r\n" if "\r\n" in text else "\n"
    plain = text.replace("\r\n", "\n")
    before = _data(plain)
    result = _blank_lines(_pairs(plain))
    if _data(result) != before or _ink(result) != _ink(plain):
        raise NotTidiedError("tidying would change more than white space; the file is left alone")
    return result.replace("\n", newline)


def _data(text: str) -> dict[str, object]:
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError) as error:  # also of a number with thousands of digits
        raise NotTidiedError(f"the file cannot be read: {error}") from None


def _ink(text: str) -> str:
    """All that is not white space: what must come out as it went in."""
    return "".join(text.split())


def _top(text: str) -> list[Node]:
    """Headers and the pairs under them, without what stands inside values."""
    found: list[Node] = []
    for node in scan(text):
        if node.kind != "element" and not node.inline and (not found or node.start >= found[-1].end):
            found.append(node)
    return found


def _pairs(text: str) -> str:
    """The text with every header and pair at the line's beginning and one space round `=`."""
    pieces: list[str] = []
    at = 0
    for node in _top(text):
        pieces.append(re.sub(r"\n[ \t]+\Z", "\n", _SPACE_AT_END.sub("", text[at:node.start])
                             if not text[at:node.start].isspace() or "\n" in text[at:node.start] else ""))
        if node.kind == "pair":
            key = text[node.start:node.value].rstrip().removesuffix("=").rstrip()
            pieces.append(f"{key} = {_value(text[node.value:node.end])}")
        else:
            pieces.append(text[node.start:node.end])
        at = node.end
    pieces.append(_SPACE_AT_END.sub("", text[at:]))
    return "".join(pieces)


def _value(value: str) -> str:
    has_long_string = any(quote * 3 in value for quote in ('"', "'"))
    return value if has_long_string else _SPACE_AT_END.sub("", value)


def _blank_lines(text: str) -> str:
    """One blank line before each table and the comment that stands on it; never more than two."""
    headers = {text.count("\n", 0, node.start) for node in _top(text) if node.kind == "table"}
    inside = _lines_inside(text)
    lines: list[str] = []
    for number, one in enumerate(text.rstrip("\n").split("\n")):
        if number in inside:
            lines.append(one)
            continue
        if number in headers:
            _open_before(lines)
        if one or (lines and lines[-_MOST_BLANK:] != [""] * _MOST_BLANK):
            lines.append(one)
    return "\n".join(lines) + "\n"


def _lines_inside(text: str) -> set[int]:
    """The numbers of the lines that continue a value begun on an earlier one."""
    return {number for node in _top(text) if node.kind == "pair"
            for number in range(text.count("\n", 0, node.start) + 1, text.count("\n", 0, node.end) + 1)}


def _open_before(lines: list[str]) -> None:
    """Put a blank line before the comment block that ends the lines so far, where there is none."""
    at = len(lines)
    while at and lines[at - 1].startswith("#"):
        at -= 1
    if at and lines[at - 1] != "":
        lines.insert(at, "")
