"""Corruptions of an aeroplane's files: seven kinds, each by chance from a seed.

The files are taken line by line as text, with no help from the program's own reader. A corruption of
syntax, key, id, unit, type or range spoils one line or a few; one of geometry changes numbers so that
most files can still be read and an engine has to cope. Nothing is promised about any single one: a
corruption may even leave a description that is right.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from random import Random

Texts = Mapping[str, str]
KINDS = ("syntax", "key", "id", "unit", "type", "range", "geometry")

_PAIR = re.compile(r'^(\s*)("[^"]*"|[\w.-]+)(\s*=\s*)(.*?)(\s*(?:#[^"]*)?)$')
_NUMBER = re.compile(r"(?<![\w.\"-])-?\d+(?:\.\d+)?(?![\w.\"])")
_POSITIVE = re.compile(
    r"tol|size|diameter|radius|width|height|thickness|chord|length|_g$|_pct$|_ml$"
)
_LINKS = ("id", "part", "on", "bay", "item", "tray", "under", "weighing", "state", "through",
          "extends", "cg_range_state", "from", "to", "address", "code", "kind")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Corrupted:
    """An aeroplane's files, as bytes by name, with the kind of corruption and what was done."""

    kind: str
    files: Mapping[str, bytes]
    what: str


@dataclass(frozen=True, slots=True)
class Pair:
    """A line `key = value` of a text: its number, and its pieces."""

    line: int
    before: str
    key: str
    equals: str
    value: str
    after: str

    def with_value(self, value: str) -> str:
        """The line with another value."""
        return f"{self.before}{self.key}{self.equals}{value}{self.after}"

    def with_key(self, key: str) -> str:
        """The line with another key."""
        return f"{self.before}{key}{self.equals}{self.value}{self.after}"


@lru_cache(maxsize=64)
def pairs_of(text: str) -> tuple[Pair, ...]:
    """Every line `key = value` of a text."""
    found = ((number, _PAIR.match(line)) for number, line in enumerate(text.split("\n")))
    return tuple(Pair(number, *match.groups()) for number, match in found if match is not None)


def corrupted(texts: Texts, kind: str, random: Random) -> Corrupted:
    """One corruption of the given kind, in one of the files."""
    names = [name for name in texts if pairs_of(texts[name])]
    weights = [8 if name == "aeroplane.toml" else 1 for name in names]
    name = random.choices(names, weights)[0]
    content, what = _BY_KIND[kind](texts[name], random)
    files = {one: text.encode() for one, text in texts.items()}
    files[name] = content if isinstance(content, bytes) else content.encode("utf-8", "replace")
    return Corrupted(kind, files, f"{name}: {what}")


def _replaced(text: str, changes: Mapping[int, str | None]) -> str:
    """The text with some lines replaced, or taken out for None."""
    lines = text.split("\n")
    new = (changes.get(number, line) for number, line in enumerate(lines))
    return "\n".join(line for line in new if line is not None)


def _typo(word: str, random: Random) -> str:
    """A word with one slip of the finger."""
    if len(word) < 2:
        return word + random.choice("xyz")
    at = random.randrange(len(word) - 1)
    return random.choice([
        word[:at] + word[at + 1] + word[at] + word[at + 2 :],
        word[:at] + word[at + 1 :],
        word[:at] + word[at] + word[at:],
        word[:at] + random.choice("aeiou_-x9") + word[at + 1 :],
        word.upper(),
    ])  # fmt: skip


def _syntax(text: str, random: Random) -> tuple[str | bytes, str]:
    pair = random.choice(pairs_of(text))
    at = random.randrange(len(text))
    signs = [place for place, sign in enumerate(text) if sign in '[]"={}\n,']
    sign = random.choice(signs)
    raw = text.encode()
    spoiled: list[Callable[[], tuple[str | bytes, str]]] = [
        lambda: (text[:sign] + text[sign + 1 :], f"a {text[sign]!r} taken out"),
        lambda: (text[:at] + random.choice('[]"={}\n,\'#\\\0\x1b\u00a0“é') + text[at:], "a sign put in"),
        lambda: (text[:at], "cut off"),
        lambda: (_replaced(text, {pair.line: f"{pair.key}: {pair.value}"}), "a colon for ="),
        lambda: (_replaced(text, {pair.line: f"{pair.key} {pair.value}"}), "no ="),
        lambda: (_replaced(text, {pair.line: f"{pair.key} = "}), "no value"),
        lambda: (_replaced(text, {pair.line: f"{pair.with_value(pair.value)}\n{pair.key} = 1"}), "twice"),
        lambda: (_replaced(text, {pair.line: pair.with_value("[" * random.choice((3, 90, 2000)))}), "open"),
        lambda: (_replaced(text, {pair.line: pair.with_value("9" * random.choice((40, 5000)))}), "digits"),
        lambda: (raw[:at] + bytes([random.choice((0x80, 0xC3, 0xFF, 0))]) + raw[at:], "a wrong byte"),
        lambda: (text.replace("\n", random.choice(("\r", "\r\n", "\v", " "))), "other line ends"),
        lambda: ("\N{ZERO WIDTH NO-BREAK SPACE}" * random.choice((1, 2)) + text, "a byte order mark"),
        lambda: (text.encode("utf-16"), "UTF-16"),
        lambda: (random.choice(("", "\n", "#", "[", "\0", "format = 1")), "next to nothing"),
        lambda: (random.randbytes(random.randrange(200)), "noise"),
    ]  # fmt: skip
    return random.choice(spoiled)()


def _key(text: str, random: Random) -> tuple[str, str]:
    pair = random.choice(pairs_of(text))
    lines = text.split("\n")
    head = random.choice([n for n, line in enumerate(lines) if line.startswith("[")] or [0])
    doing = random.randrange(7)
    if doing <= 1:
        return _replaced(
            text, {pair.line: pair.with_key(_typo(pair.key, random))}
        ), "a key mistyped"
    if doing <= 3:
        return _replaced(text, {pair.line: None}), f"{pair.key} taken out"
    if doing == 4:
        extra = f"{random.choice(('colour', 'mas_g', 'ID', 'x', 'Größe'))} = 1".replace(
            "Größe", '"Größe"'
        )
        return _replaced(text, {pair.line: f"{lines[pair.line]}\n{extra}"}), "a key put in"
    heading = lines[head]
    other = random.choice([
        _typo(heading, random), heading.strip("[]").join("[]"), heading.strip("[]").join(("[[", "]]")),
        f"# {heading}", "[[item]]", "[measurement]", "[[option.add.item]]", "[[aeroplane]]",
    ])  # fmt: skip
    return _replaced(text, {head: other}), f"{heading} for {other}"


def _id(text: str, random: Random) -> tuple[str, str]:
    pairs = pairs_of(text)
    linked = [pair for pair in pairs if pair.key in _LINKS or '["' in pair.value] or list(pairs)
    pair = random.choice(linked)
    if random.random() < 0.7:  # another name that is used for the same elsewhere
        others = [one.value for one in pairs if one.key == pair.key]
        value = random.choice(others)
    else:
        word = pair.value.strip('"[]')
        value = random.choice([
            f'"{_typo(word, random)}"', '""', '"no such thing"', f'"{word} "', '"ünbekannt"',
            f'"{"x" * 200}"', f'["{word}"]', f'"{word.upper()}"', '"aeroplane"', '"x.y.z"',
        ])  # fmt: skip
    return _replaced(text, {pair.line: pair.with_value(value)}), f"{pair.key} = {value}"


def _numeric(text: str) -> list[Pair]:
    pairs = pairs_of(text)
    return [pair for pair in pairs if _NUMBER.search(pair.value) and '"' not in pair.value] or list(
        pairs
    )


_RIGHT = {"mm": ("mm", "cm", "in", "m"), "g": ("g", "kg", "oz", "lb"), "deg": ("deg", "rad"),
          "kgm2": ("kg m^2", "lb in^2"), "ml": ("ml", "l"), "pct": ("%",), "nm": ("Nm", "kgf cm"),
          "a": ("A", "mA"), "v": ("V", "mV"), "mohm": ("mohm", "ohm"), "s": ("s", "ms")}  # fmt: skip
_WRONG = ("km/h", "furlong", "", "kg cm", "mmm", "°C", "m m m", "mm^2/s", "1", "0x", "V*A", "e", "inf",
          "nan", "–", "mm mm", "C", "%", "\\u0000")  # fmt: skip


def _unit(text: str, random: Random) -> tuple[str, str]:
    numeric = _numeric(text)
    pair = random.choice(numeric)
    suffix = pair.key.rpartition("_")[2]
    if random.random() < 0.7:
        unit = random.choice(_RIGHT.get(suffix, ("mm", "g")))
    elif random.random() < 0.3:
        new = f"{pair.key.rpartition('_')[0]}_{random.choice(('mm', 'kg', 'in', 'oz', 'cm', 'x', ''))}"
        return _replaced(text, {pair.line: pair.with_key(new)}), f"{pair.key} for {new}"
    else:
        unit = random.choice(_WRONG)
    found = list(_NUMBER.finditer(pair.value))
    if not found:
        return _replaced(text, {pair.line: pair.with_value(f'"3 {unit}"')}), unit
    one = random.choice(found)
    space = random.choice((" ", " ", ""))
    number = (
        one[0]
        if unit in (suffix, "Nm", "ml", "%", "V", "A", "s")
        else f"{float(one[0]) / 25.4:.4g}"
    )
    value = f'{pair.value[: one.start()]}"{number}{space}{unit}"{pair.value[one.end() :]}'
    return _replaced(text, {pair.line: pair.with_value(value)}), f"{pair.key} = {value}"


_OTHER = ("true", "false", '"text"', '""', "0", "1.5", "[]", "[1]", "[1, 2, 3]", "[[1, 2], [3, 4]]", "{}",
          "{ id = 1 }", "2026-04-18", "2026-04-18T10:00:00Z", "10:00:00", '["a", 1]', "[[[[1]]]]", "-1",
          "[true, false, true]", "[{}, {}]", '"""\nlong\n"""', "'\x1b[31m'", '"\\u001b[31mred"', "[nan, 0, 0]",
          f"[{', '.join(['1'] * 5000)}]", f'"{"long " * 2000}"')  # fmt: skip


def _type(text: str, random: Random) -> tuple[str, str]:
    pair = random.choice(pairs_of(text))
    value = random.choice(_OTHER)
    return _replaced(text, {pair.line: pair.with_value(value)}), f"{pair.key} = {value[:40]}"


_WILD = ("0", "-0.0", "-1", "1e-9", "1e9", "-1e9", "1e300", "-1e300", "5e-324", "inf", "-inf", "nan",
         "99999999999999999999", "0.0", "20000", "-20000", "20001", "1e4", "360", "45", "1000000")  # fmt: skip


def _range(text: str, random: Random) -> tuple[str, str]:
    pair = random.choice(_numeric(text))
    mild = random.random() < 0.6

    def other(match: re.Match[str]) -> str:
        if not mild:
            return random.choice(_WILD)
        return f"{float(match[0]) * random.choice((0.01, 0.1, 0.5, 2, 10)):.6g}"

    found = list(_NUMBER.finditer(pair.value))
    if not found:
        value = random.choice(_WILD)
    elif random.random() < 0.5:
        value = _NUMBER.sub(other, pair.value)
    else:
        one = random.choice(found)
        value = pair.value[: one.start()] + other(one) + pair.value[one.end() :]
    return _replaced(text, {pair.line: pair.with_value(value)}), f"{pair.key} = {value}"


def _geometry(text: str, random: Random) -> tuple[str, str]:
    numeric = _numeric(text)
    lengths = [
        pair for pair in numeric if pair.key.endswith(("_mm", "_deg", "_g", "_pct"))
    ] or numeric
    changes: dict[int, str | None] = {}
    done = []
    for _ in range(random.choice((1, 1, 1, 2, 5))):
        pair = random.choice(lengths)
        new = _elsewhere(pair, lengths, random)
        changes[pair.line] = pair.with_value(new)
        done.append(f"{pair.key} = {new}")
    if random.random() < 0.15:
        rows = [n for n, line in enumerate(text.split("\n")) if line.startswith("[[")]
        if len(rows) > 1:
            changes |= _row_out(text, random.choice(rows))
            done.append("a row taken out")
    return _replaced(text, changes), "; ".join(done)


def _elsewhere(pair: Pair, others: list[Pair], random: Random) -> str:
    """Another place, size or turn for a value that holds numbers."""
    numbers = _NUMBER.findall(pair.value) or ["1"]
    order = iter(random.sample(numbers, len(numbers)))
    factor = random.choice((0.0, 1e-6, 0.01, 0.5, 0.9, 1.001, 3.0, 12.0))
    by = random.choice((-2000.0, -40.0, -1.0, 0.001, 1.0, 25.0, 300.0))
    sign = 1.0 if _POSITIVE.search(pair.key) and random.random() < 0.9 else -1.0
    another: Callable[[re.Match[str]], str] = random.choice([
        lambda match: f"{sign * float(match[0]):g}",
        lambda match: f"{float(match[0]) * factor:.9g}",
        lambda match: f"{float(match[0]) + by:.9g}",
        lambda _: next(order),
        lambda _: numbers[0],
        lambda match: f"{float(match[0]) * random.uniform(0.7, 1.3):.5f}",
    ])  # fmt: skip
    if random.random() < 0.15:
        return random.choice([one.value for one in others if one.key == pair.key])
    moved = _NUMBER.sub(another, pair.value)
    return moved if moved != pair.value else _NUMBER.sub(lambda match: f"{float(match[0]) + 7:g}", moved)


def _row_out(text: str, head: int) -> dict[int, str | None]:
    """The lines of one row, to be taken out."""
    lines = text.split("\n")
    end = next((n for n in range(head + 1, len(lines)) if lines[n].startswith("[")), len(lines))
    return dict.fromkeys(range(head, end))


_BY_KIND: Mapping[str, Callable[[str, Random], tuple[str | bytes, str]]] = {
    "syntax": _syntax, "key": _key, "id": _id, "unit": _unit, "type": _type, "range": _range,
    "geometry": _geometry,
}  # fmt: skip
