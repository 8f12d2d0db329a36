"""Replacing, adding and taking out single values in a TOML text, everything else left as it is.

All edits of one value come from one scan of the text and are collected as splices: (start, end,
new text). Arrays are edited element by element, so that their layout and comments stay.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from hardstand.changes import same_value
from hardstand.description.rendering import NotWritableError, render, render_key
from hardstand.description.scan import Node, Path, scan

Splice = tuple[int, int, str]

_REST_OF_LINE = re.compile(r"[ \t]*(?:#[^\r\n]*)?(?:\r?\n|$)")
_COMMA = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*,")
_LAST_KEY = re.compile(r"""([A-Za-z0-9_-]+|"(?:\\.|[^"\\])*"|'[^']*')\s*=\s*$""")
_COMMENT_AFTER = re.compile(r"[ \t]*#[^\r\n]*")


def spliced(text: str, splices: Iterable[Splice]) -> str:
    """The text with every splice made; spans refer to the text as it was and don't overlap.

    >>> spliced("abc", [(0, 1, "x"), (3, 3, "!")])
    'xbc!'
    """
    in_order = sorted(enumerate(splices), key=lambda one: (one[1][:2], one[0]), reverse=True)
    for _, (start, end, new) in in_order:
        text = text[:start] + new + text[end:]
    return text


class Values:
    """The values of one text by path, and the splices that change them."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.nodes = scan(text)
        self.values = {node.path: node for node in self.nodes if node.kind != "table"}

    def style(self, path: Path) -> str:
        """The text of a value, to write another one like it; empty where there is none."""
        node = self.values.get(path)
        return self.text[node.value : node.end] if node else ""

    def replace(self, path: Path, old: Any, new: Any) -> Iterator[Splice]:
        """Make the value at `path`, which is `old` now, `new`; only what differs is touched."""
        if same_value(old, new):
            return
        node = self.values.get(path)
        if isinstance(old, Mapping) and isinstance(new, Mapping):
            yield from self._pairs(path, old, new)
            return
        if node is None:
            if not _are_rows(old) or not _are_rows(new) or len(old) != len(new):
                raise NotWritableError(f"{_dotted(path)} is a table here, not a single value")
            for i, (row, other) in enumerate(zip(old, new, strict=True)):
                yield from self.replace((*path, i), row, other)
            return
        if isinstance(old, list) and isinstance(new, list) and old:
            yield from self._array(node, old, new)
        else:
            yield (node.value, node.end, render(new, self.style(path)))

    def _pairs(self, path: Path, old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[Splice]:
        """Make the pairs of a table others: keys that only got another name stay in their place."""
        node = self.values.get(path)
        renamed = _renamed_keys(old, new)
        if not all((*path, key) in self.values for key in renamed):
            renamed = {}  # a table with a heading of its own, or keys with dots
        for key, name in renamed.items():
            yield self._rename_key(self.values[(*path, key)], name)
        old = {renamed.get(key, key): value for key, value in old.items()}
        gone = len(old.keys() - new.keys())
        if node is not None and (gone > 1 or gone == len(old)):
            yield (node.value, node.end, render(new))
            return
        for key in [*old, *(key for key in new if key not in old)]:
            yield from self.put((*path, key), old.get(key), new.get(key))

    def put(self, path: Path, old: Any, new: Any) -> Iterator[Splice]:
        """Replace, add (`old` is None) or take out (`new` is None) the pair at `path`."""
        if new is None:
            yield from self._take_out(path)
        elif old is None:
            yield self._add(path, new)
        else:
            yield from self.replace(path, old, new)

    def _add(self, path: Path, new: Any) -> Splice:
        parent, pair = path[:-1], f"{render_key(str(path[-1]))} = {render(new)}"
        beside = [node for node in self.values.values() if node.path[:-1] == parent]
        if beside and beside[-1].inline:
            return (beside[-1].end, beside[-1].end, f", {pair}")
        if parent in self.values:  # empty braces
            node = self.values[parent]
            return (node.value, node.end, f"{{ {pair} }}")
        under = beside or [
            node for node in self.values.values()
            if node.kind == "pair" and not node.inline and node.path[: len(parent)] == parent
        ][-1:]  # fmt: skip
        header = next((n for n in self.nodes if n.kind == "table" and n.path == parent), None)
        if header is not None:
            under = [node for node in under if node.start > header.start] or [header]
        if not under:
            raise NotWritableError(f"there is no {_dotted(parent)} to add {path[-1]} to")
        last = under[-1]
        before = ""
        if last.kind == "pair":
            line = self.text.rfind("\n", 0, last.start) + 1
            before = self.text[line : last.start]
            if header is None:  # a dotted key: what stands before its last part is said again
                key = self.text[last.start : last.value].rpartition(".")[0]
                before += f"{key}." if key else ""
        return self._line_after(last.end, before + pair)

    def _rename_key(self, node: Node, name: str) -> Splice:
        """The last part of a pair's key made another, in the same kind of quotes."""
        last = _LAST_KEY.search(self.text[node.start : node.value])
        if last is None:
            raise NotWritableError(f"the key of {_dotted(node.path)} can't be found")
        quote = last[1][0] if last[1][0] in "\"'" else ""
        new = render(name, last[1]) if quote else render_key(name)
        return (node.start + last.start(1), node.start + last.end(1), new)

    def _line_after(self, place: int, line: str) -> Splice:
        """A line put in after the one that `place` is on."""
        match = _REST_OF_LINE.match(self.text, place)
        if match is None:
            raise NotWritableError("something else follows on the same line")
        if match[0].endswith("\n"):
            return (match.end(), match.end(), f"{line}\n")
        return (match.end(), match.end(), f"\n{line}\n")

    def _take_out(self, path: Path) -> Iterator[Splice]:
        pairs = [n for n in self.nodes if n.kind == "pair" and n.path[: len(path)] == path]
        if any(n.kind == "table" and n.path[: len(path)] == path for n in self.nodes) or not pairs:
            raise NotWritableError(f"{_dotted(path)} is not a single value here")
        if pairs[0].inline:
            beside = [n for n in self.values.values() if n.path[:-1] == path[:-1] and n.inline]
            yield _cut_from_list(self.text, beside, beside.index(pairs[0]), 1)
            return
        for node in pairs:
            if not node.inline:
                line = self.text.rfind("\n", 0, node.start) + 1
                rest = _REST_OF_LINE.match(self.text, node.end)
                yield (line, rest.end() if rest else node.end, "")

    def _array(self, node: Node, old: list[Any], new: list[Any]) -> Iterator[Splice]:
        """Change an array that has elements: alike at both ends, different in the middle."""
        elements = [self.values[(*node.path, i)] for i in range(len(old))]
        shorter = min(len(old), len(new))
        first = _alike(zip(old, new, strict=False))
        last = min(_alike(zip(reversed(old), reversed(new), strict=False)), shorter - first)
        paired = shorter - first - last
        for i in range(first, first + paired):
            yield from self.replace((*node.path, i), old[i], new[i])
        at = first + paired
        if len(new) < len(old):
            yield _cut_from_list(self.text, elements, at, len(old) - len(new))
        elif len(new) > len(old):
            style = self.style(elements[min(at, len(old) - 1)].path)
            added = [render(one, style) for one in new[at : at + len(new) - len(old)]]
            yield from self._insert(elements, at, added)

    def _insert(self, elements: Sequence[Node], at: int, added: list[str]) -> Iterator[Splice]:
        text = self.text
        beside = elements[min(at, len(elements) - 1)]
        line = text.rfind("\n", 0, beside.start) + 1
        own_line = line > 0 and not text[line : beside.start].strip()
        between = f"\n{text[line : beside.start]}" if own_line else " "
        if at < len(elements):
            yield (beside.start, beside.start, "".join(f"{one},{between}" for one in added))
            return
        comma = _COMMA.match(text, beside.end)
        place = comma.end() if comma else beside.end
        new = between + f",{between}".join(added)
        comment = _COMMENT_AFTER.match(text, place) if own_line else None
        if comma is None and comment is not None:
            yield (place, place, ",")
        elif comma is None:
            new = f",{new}"
        else:
            new += ","
        place = comment.end() if comment else place
        yield (place, place, new)


def _renamed_keys(old: Mapping[str, Any], new: Mapping[str, Any]) -> dict[str, str]:
    """Keys that became others in the same place with the same value; empty unless all else agrees.

    >>> _renamed_keys({"a": 1, "b": 2}, {"a": 3, "c": 2})
    {'b': 'c'}
    """
    pairs = [(a, b) for a, b in zip(old, new, strict=False) if a != b]
    if len(old) != len(new) or any(
        a in new or b in old or not same_value(old[a], new[b]) for a, b in pairs
    ):
        return {}
    return dict(pairs)


def _are_rows(value: Any) -> bool:
    return isinstance(value, list) and all(isinstance(one, Mapping) for one in value)


def _alike(pairs: Iterable[tuple[Any, Any]]) -> int:
    count = 0
    for one, other in pairs:
        if not same_value(one, other):
            break
        count += 1
    return count


def _cut_from_list(text: str, elements: Sequence[Node], at: int, count: int) -> Splice:
    """Cut `count` neighbours out of an array or a table in braces, with their commas."""
    first, last = elements[at], elements[at + count - 1]
    if at + count < len(elements):
        return (first.start, elements[at + count].start, "")
    comma = _COMMA.match(text, last.end)
    end = comma.end() if comma else last.end
    if at == 0:
        return (first.start, end, "")
    line = text.rfind("\n", 0, first.start) + 1
    if line > elements[at - 1].end and not text[line : first.start].strip():
        comment = _COMMENT_AFTER.match(text, end)
        end = comment.end() if comment else end
        return (line - (2 if text.startswith("\r\n", line - 2) else 1), end, "")
    return (elements[at - 1].end, last.end, "")


def _dotted(path: Path) -> str:
    return ".".join(str(part) for part in path)
