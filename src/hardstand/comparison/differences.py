"""What differs between the first column and each other one, in words; the largest first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from hardstand.asbuilt.value import AsBuilt
from hardstand.comparison.pairs import single_boxes
from hardstand.comparison.value import Column, Difference, Line
from hardstand.findings import SEVERITIES, Finding, Severity
from hardstand.standards.units import UNITS, show

# How much one finding more or less counts, in steps worth a line; common practice, no source.
WEIGHT: Mapping[Severity, float] = {"no-go": 100.0, "measure": 4.0, "caution": 3.0, "note": 0.5}
PAIR_WEIGHT = 10.0  # which single box takes both sides is what such options are made for
LEAST = 1e-9
WORDS: Mapping[Severity, tuple[str, str]] = {
    "no-go": ("no-go", "no-go"), "measure": ("point to measure", "points to measure"),
    "caution": ("caution", "cautions"), "note": ("note", "notes"),
}  # fmt: skip
Key = tuple[str, tuple[str, ...]]


def differences(columns: Sequence[Column], lines: Sequence[Line], built: Sequence[AsBuilt]) -> list[Difference]:
    """All differences of every column after the first, by column and then by size."""
    found: list[Difference] = []
    for at in range(1, len(columns)):
        told = [*_findings(columns[0], columns[at]), *_lines(lines, at), *_boxes(built[0], built[at])]
        ordered = sorted(told, key=lambda one: -one[0])
        found += [Difference(at, size, text) for size, text in ordered]
    return found


def by_key(findings: Sequence[Finding]) -> dict[Key, Severity]:
    """The severity of each finding by code and subjects."""
    return {(one.code, one.about): one.severity for one in findings}


def _findings(base: Column, other: Column) -> Iterator[tuple[float, str]]:
    before, after = by_key(base.findings), by_key(other.findings)
    for word in SEVERITIES:
        new = [key for key, found in after.items() if found == word and before.get(key) != word]
        gone = [key for key, found in before.items() if found == word and after.get(key) != word]
        for keys, said in ((new, "more"), (gone, "fewer")):
            if keys:
                words = WORDS[word][len(keys) != 1]
                yield WEIGHT[word] * len(keys), f"{len(keys)} {said} {words}: {'; '.join(map(_named, keys))}"


def _named(key: Key) -> str:
    code, about = key
    return f"{code} of {' with '.join(about) if len(about) < 3 else f'{about[0]} and {len(about) - 1} more'}"


def _lines(lines: Sequence[Line], at: int) -> Iterator[tuple[float, str]]:
    for line in lines:
        first, other = line.values[0], line.values[at]
        if first is None or other is None or first.figure is None or other.figure is None:
            if (first and first.figure) or (other and other.figure):
                yield 1.0, f"{line.label}: {_why(first)}, then {_why(other)}"
            continue
        by = other.figure.value - first.figure.value
        if abs(by) > LEAST and (text := amount(abs(by), first.figure.unit)):
            words = other.said[by < 0.0].format(text)
            of = "" if first.of == other.of or not other.of else f" ({other.of})"
            yield abs(by) / other.step, f"{_singular(words) if text == '1' else words}{of}"


def _singular(words: str) -> str:
    """Words of one thing.

    >>> _singular("1 more items"), _singular("1 leads to make")
    ('1 more item', '1 lead to make')
    """
    return words.replace("items", "item").replace("leads", "lead")


def _why(one: object) -> str:
    figure, note = getattr(one, "figure", None), getattr(one, "note", "")
    return show(figure.value, figure.unit) if figure else note or "not assessed"


def amount(value: float, unit: str) -> str:
    """A difference as it is said: whole grams and millimetres from ten on; empty where it rounds to 0.

    >>> amount(52.0, "g"), amount(0.93, "mm"), amount(2030.0, "mm"), amount(2.0, "")
    ('52 g', '0.9 mm', '2030 mm', '2')
    """
    if unit not in UNITS:
        return f"{value:g} {unit}".strip()
    if unit in ("g", "mm"):
        digits = 0 if value >= 10.0 else 1
        return "" if round(value, digits) == 0.0 else f"{value:.{digits}f} {unit}"
    return show(value, unit)


def _boxes(base: AsBuilt, other: AsBuilt) -> Iterator[tuple[float, str]]:
    """Pairs both halves of which hang on a single box in one of the two and not in the other."""
    before, after = single_boxes(base.items, base.leads), single_boxes(other.items, other.leads)
    both = [name for name in before if name in after]
    lost = [name for name in both if before[name] and not after[name]]
    won = [name for name in both if after[name] and not before[name]]
    if lost:
        boxes = dict.fromkeys(box for name in lost for box in before[name])
        yield PAIR_WEIGHT * len(lost), (
            f"no single box is left from which the leads of both come: {'; '.join(lost)} "
            f"(it was {', '.join(boxes)})")
    if won:
        boxes = dict.fromkeys(box for name in won for box in after[name])
        yield PAIR_WEIGHT * len(won), (
            f"the leads of both come from a single box, {', '.join(boxes)}: {'; '.join(won)}")
