"""The common slips in a TOML text, recognised from where the standard parser stopped.

Each rule looks at the parser's message, the line and its surroundings, and gives the slip in plain
words or None. The parser's place is often a line after the slip: a bracket that is never closed is
reported where it was opened.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from hardstand.description.scan import Node, open_bracket, scan
from hardstand.description.syntax_stop import Stop, SyntaxSlip

_NUMBER = r"[+-]?\d+(?:\.\d*)?"


def _bracket(stop: Stop) -> SyntaxSlip | None:
    opened = open_bracket(stop.text)
    if opened is None or not re.match(r"Unclosed|Invalid (value|initial)", stop.message):
        return None
    opening = stop.text[opened]
    closing = "]" if opening == "[" else "}"
    line = stop.text.count("\n", 0, opened) + 1
    rest = stop.words[stop.column - 1 :]
    begins_value = re.match(r"""[\[{"'\d+-]""", rest) and not re.match(r"\[\[?[A-Za-z_]", rest)
    if stop.message.startswith("Unclosed") and begins_value and not _is_pair(rest):
        return stop.slip("a comma is missing between two values", "a comma", "put a comma before "
                         f"{_short(rest)}")
    if line == stop.line and closing in rest:
        return None
    if opening == "{":
        return stop.slip("braces opened here are not closed on the same line", "}",
                         "braces and what they hold stand on one line", line)
    return stop.slip(f"the bracket {opening} opened here is never closed", closing,
                     f"add {closing} after the last value", line)


def _is_pair(words: str) -> bool:
    return re.match(r"""[\w."'-]+\s*=""", words) is not None


def _quote(stop: Stop) -> SyntaxSlip | None:
    if stop.message.startswith("Unescaped"):
        return stop.slip("a single backslash in a text between double quotes",
                         r"\\ or single quotes",
                         "use single quotes, 'like this', or write each backslash twice")
    at_end = stop.message.startswith(("Unterminated", "Expected \"'"))
    if not at_end and not stop.message.startswith(r"Illegal character '\n'"):
        return None
    line = stop.line
    if at_end:  # the text runs on to the end of the file: it begins after the last value read
        nodes = scan(stop.text)
        end = nodes[-1].end if nodes else 0
        line = stop.text.count("\n", 0, end + _gap(stop.text[end:])) + 1
    mark = "'" if "'" in stop.line_text(line) and '"' not in stop.line_text(line) else '"'
    return stop.slip("a text has no closing quote", f"a closing {mark}",
                     f"add {mark} where the text ends", line)


def _gap(text: str) -> int:
    """How many characters of blanks and comments a text begins with."""
    match = re.match(r"(?:[ \t\r\n]+|#[^\n]*)*", text)
    return match.end() if match else 0


def _equals(stop: Stop) -> SyntaxSlip | None:
    if not stop.message.startswith("Expected '='"):
        return None
    words = stop.words
    key = re.match(r"\s*([\w.-]+(?:\s+[\w.-]+)+)\s*=", words)
    if key:
        joined = re.sub(r"\s+", "_", key[1])
        return stop.slip("a key has no spaces in it", "key = value", f"write {joined} = …")
    colon = re.match(r"\s*([\w.-]+)\s*:", words)
    if colon:
        return stop.slip("a colon stands where = belongs", "key = value", f"write {colon[1]} = …")
    name = words.split()[0] if words.split() else "name"
    return stop.slip("the = is missing after the key", "key = value", f"write {name} = …")


def _unseen(stop: Stop) -> SyntaxSlip | None:
    if stop.words.replace("\t", "").isprintable():
        return None
    return stop.slip("there is a character here that can't be seen", "", "type the line anew")


def _value(stop: Stop) -> SyntaxSlip | None:
    if not stop.message.startswith("Invalid value"):
        return None
    value = stop.value
    short = _short(value)
    return _tried(stop, (
        (r"$", "there is no value after the =", "a value", "give a value or take the line out"),
        (r"(?i)(true|yes|on)$", f"{short} is not a value", "true or false",
         "write true, in small letters"),
        (r"(?i)(false|no|off)$", f"{short} is not a value", "true or false",
         "write false, in small letters"),
        ("[“”„‘’«]", "printed quotes do not mark a text", 'straight quotes "', 'replace them by "'),
        ("[−–]", "a printed minus or dash is not a minus here", "-", "write an ordinary -"),
        (r"[+-]?\.\d", "a number begins with a digit", f"0{value.lstrip('+-')}", "write the 0"),
        (r"[^\W\d]", "a text stands between quotes", f'"{short}"', "put it between quotes"),
        (r"", f"{short} is not a value", "a number, a text in quotes, a list in brackets", ""),
    ))  # fmt: skip


def _after(stop: Stop) -> SyntaxSlip | None:
    if not stop.message.startswith("Expected newline"):
        return None
    if stop.words.lstrip().startswith("["):
        return stop.slip("something follows the heading", "nothing after ]", "begin a new line")
    value = stop.value
    return _tried(stop, (
        (rf"{_NUMBER},\d", "a decimal is written with a point", value.replace(",", ".", 1),
         "replace the comma by a point"),
        (r"[+-]?0\d", "a number does not begin with 0", value.lstrip("0") or "0", "take the 0 out"),
        (r"[+-]?\d+\.(?!\d)", "digits follow the point of a number", f"{value}0",
         "write the digit"),
        (rf"{_NUMBER}\s*[^\W\d]+\s*=", "two settings stand on one line", "one to a line",
         "begin a new line"),
        (rf"{_NUMBER}\s*[^\W\d°%]*[\w°%/^ ]+$", "a number with a unit stands between quotes",
         f'"{_short(value)}"', "put it between quotes, or give the plain number"),
        (r"""(["']).*\1""", "the text ends before the line does",
         "nothing after the closing quote", "put the other kind of quote, \" or ', around it"),
        (r"\[.*\]", "there is one closing bracket too many", "as many ] as [", "take one ] out"),
        (r"", "the line goes on after its value", "the end of the line", "begin a new line"),
    ))  # fmt: skip


def _tried(stop: Stop, slips: tuple[tuple[str, str, str, str], ...]) -> SyntaxSlip:
    """The first of (pattern of the value, what, expected, hint) that fits; the last always does."""
    _, what, expected, hint = next(slip for slip in slips if re.match(slip[0], stop.value))
    return stop.slip(what, expected, hint)


def _twice(stop: Stop) -> SyntaxSlip | None:
    if not re.match(r"Cannot (overwrite|declare|redefine|mutate)|Duplicate", stop.message):
        return None
    nodes = scan("\n".join(stop.text.split("\n")[: stop.line]))
    if not nodes:
        return None
    last = nodes[-1] if nodes[-1].kind == "table" else _last_pair(nodes)
    name = ".".join(part for part in last.path if isinstance(part, str))
    if last.kind == "table":
        first = _first(stop, nodes, last.path[:1] if isinstance(last.path[-1], int) else last.path)
        hint = f"head a table that stands once [{name}], each row of several [[{name}]]"
        return stop.slip(f"the table {name} is already there{first}", "one heading", hint)
    field = last.path[-1]
    return stop.slip(f"{field} is already given{_first(stop, nodes, last.path)}", "each key once",
                     "take one of the two out")


def _last_pair(nodes: tuple[Node, ...]) -> Node:
    pairs = [node for node in nodes if node.kind == "pair"]
    seen = {node.path: node for node in pairs[:-1]}
    again = (node for node in reversed(pairs) if seen.get(node.path, node) is not node)
    return next(again, pairs[-1])


def _first(stop: Stop, nodes: tuple[Node, ...], path: tuple[str | int, ...]) -> str:
    """Where a path is first mentioned, as the end of a sentence."""
    for node in nodes[:-1]:
        if node.path[: len(path)] == path:
            return f" in line {stop.text.count(chr(10), 0, node.start) + 1}"
    return ""


def _heading(stop: Stop) -> SyntaxSlip | None:
    words = stop.words.strip()
    if not words.startswith("["):
        return None
    both = words.startswith("[[") or words.endswith("]]")
    return stop.slip("a heading is not closed as it was opened", "[[name]]" if both else "[name]",
                     "as many ] after the name as [ before it; a name has no spaces")


def _start(stop: Stop) -> SyntaxSlip | None:
    if not stop.message.startswith("Invalid"):
        return None
    words = stop.words.strip()
    if words.startswith(("//", ";", "/*", "--")):
        return stop.slip("a comment begins with #", "#", "write # before the comment")
    if words.startswith("="):
        return stop.slip("there is no key before the =", "key = value", "write the key")
    return stop.slip("a key or a heading was expected here", "key = value, [name] or [[name]]",
                     "keys hold letters a to z, digits, - and _")


def _short(words: str) -> str:
    return words if len(words) <= 30 else words[:29] + "…"


RULES: tuple[Callable[[Stop], SyntaxSlip | None], ...] = (
    _unseen, _bracket, _quote, _equals, _value, _after, _twice, _heading, _start,
)  # fmt: skip
