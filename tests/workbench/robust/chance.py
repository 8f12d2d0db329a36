"""What Hypothesis chooses for one request, drawn before the state of the aeroplane is looked at.

What is drawn must not depend on what earlier requests left; so a request takes its choices from here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from hypothesis import strategies as st

T = TypeVar("T")


@dataclass
class Chance:
    """Numbers to choose by, and values of every sort that a request may carry."""

    numbers: list[int]
    hostile: str
    note: str
    line: str
    binary: bytes
    _used: int = field(default=0, init=False)

    def whole(self, low: int, high: int) -> int:
        """A whole number between two, both included."""
        self._used += 1
        return low + self.numbers[self._used % len(self.numbers)] % (high - low + 1)

    def pick(self, known: Sequence[T]) -> T:
        """One of several."""
        return known[self.whole(0, len(known) - 1)]


_ODD = (
    "NaN", "Infinity", "-Infinity", "1e999", "-0", "9" * 400, "9" * 5000, "[" * 3000, "null", "true", "{}",
    '{"a": {"b": [1]}}', '"\\ud800"', '"\\u0000"', "\x00", "../beside/secret.toml", "/etc/passwd",
    "parts/../../beside/secret.toml", "item.rx.at_mm.x", "item.nobody.at_mm", "item.rx.nothing", "nothing.rx.at_mm",
    "item.rx.id", "option.aft.set", "balance.cg@empty", "aeroplane", ".", "//[", "http://[::1", "http://evil.example/",
    "//evil.example", "/\\evil", "/trays?" + "&".join(f"a{k}=1" for k in range(40)), "2026-01-02",
    "2026-01-02T03:04:05Z", "12:30:00", "1_000", "0x10", "'''", '"""', "a = 1\nb = 2", "{a = 1}", "/trace?of=//[",
    "<script>alert(1)</script>", "{{ 7*7 }}", "\r\nSet-Cookie: a=b", "\u202etxt", "💥" * 40, "٣", "²", "-1", "0",
    "999999999999", "x" * 20_000, "1e400 kg", "12 oz", "3 in", "[NaN, 0]", "[1e308, -1e308]", "[[[1, 2], [3]], 4]",
)  # fmt: skip
_HOSTILE = st.one_of(
    st.sampled_from(_ODD), st.text(max_size=40), st.integers().map(str), st.floats().map(str),
    st.recursive(st.one_of(st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=5)),
                 lambda inner: st.lists(inner, max_size=4), max_leaves=6).map(str),
)  # fmt: skip
CHANCES = st.builds(
    Chance, st.lists(st.integers(0, 2**20), min_size=12, max_size=12), _HOSTILE, st.text(max_size=12),
    st.text(st.characters(exclude_categories=["C", "Z"]), max_size=20), st.binary(max_size=400))  # fmt: skip
