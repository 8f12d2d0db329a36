"""Figures inside sentences, shown in the builder's preferred units.

Engines write their sentences in metric. A builder who reads imperial gets the same sentences with
each figure converted and rounded to a like fineness; nothing is computed anew.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from hardstand.standards.units import OUNCE_G, POUND_G, UNITS, System


@dataclass(frozen=True, slots=True)
class _Swap:
    symbol: str
    size: float  # of one shown unit, in the sentence's unit
    finer: int  # decimals more than the sentence's figure had
    zero: float = 0.0


# Decimals to add, so that the step shown stays about as fine: 0.1 mm is 0.004 in.
_FINER = {"mm": 2, "n": 1, "nm": 0, "kpa": 1, "ml": 1, "m_s": 0, "kgm2": 0}


def _swaps() -> dict[str, _Swap]:
    found = {}
    for suffix, finer in _FINER.items():
        metric, imperial = UNITS[suffix].metric[0], UNITS[suffix].imperial[-1]
        found[metric.symbol] = _Swap(imperial.symbol, imperial.size, finer)
    found["g"] = _Swap("oz", OUNCE_G, 1)
    found["kg"] = _Swap("lb", POUND_G / 1000.0, 0)
    found["°C"] = _Swap("°F", 5.0 / 9.0, 0, 32.0)
    return found


_SWAPS = _swaps()
_NUMBER = r"[−-]?\d+(?:\.\d+)?"
_JOIN = r"(?: ± | to | and | or | × |, | → |–)"
_SYMBOLS = "|".join(re.escape(one) for one in sorted(_SWAPS, key=len, reverse=True))
_NUMBERS = rf"(?<![\w.@:/-])({_NUMBER}(?:{_JOIN}{_NUMBER})*)"
_QUANTITY = re.compile(rf"{_NUMBERS}( ?)({_SYMBOLS})(?![\w·/²³])")
_PART = re.compile(rf"(± )?({_NUMBER})")


def in_units(text: str, system: System) -> str:
    """A sentence with its figures in the preferred units.

    >>> in_units("Gap 1.2 ± 0.4 mm, needs 2.0 mm at 400 g.", "imperial")
    'Gap 0.047 ± 0.016 in, needs 0.079 in at 14.1 oz.'
    >>> in_units("CG range 243 to 260 mm.", "imperial")
    'CG range 9.57 to 10.24 in.'
    """
    if system == "metric":
        return text
    return _QUANTITY.sub(_swapped, text)


def _swapped(match: re.Match[str]) -> str:
    swap = _SWAPS[match[3]]

    def one(part: re.Match[str]) -> str:
        decimals = len(part[2].partition(".")[2]) + swap.finer
        zero = 0.0 if part[1] else swap.zero  # a width has no zero of its scale
        value = round(float(part[2].replace("−", "-")) / swap.size + zero, decimals) + 0.0
        return f"{part[1] or ''}{value:.{decimals}f}".replace("-", "−")

    return f"{_PART.sub(one, match[1])}{match[2] or ' '}{swap.symbol}"
