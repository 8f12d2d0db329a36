"""The ends of a limit as numbers that can always be compared, and in words with their unit."""

from __future__ import annotations

from math import inf, isinf

from hardstand.findings import Limit
from hardstand.standards.units import UNITS


def low_of(limit: Limit) -> float:
    """The lower end, minus infinity where there is none.

    >>> low_of(Limit("balance.lateral", "mm", high=3.0))
    -inf
    """
    return -inf if limit.low is None else limit.low


def high_of(limit: Limit) -> float:
    """The upper end, infinity where there is none."""
    return inf if limit.high is None else limit.high


def limit_words(limit: Limit) -> str:
    """What a limit asks, for a sentence.

    >>> limit_words(Limit("balance.nose-share", "pct", 8.0, 15.0))
    '8 to 15 %'
    >>> limit_words(Limit("balance.static-margin", "pct", low=3.0))
    'at least 3 %'
    >>> limit_words(Limit("balance.lateral", "mm", -3.0, 3.0))
    'at most 3 mm to either side'
    """
    low, high = low_of(limit), high_of(limit)
    unit = UNITS[limit.unit].metric[0].symbol
    gap = "" if unit == "°" else " "
    if isinf(low):
        return "none" if isinf(high) else f"at most {high:g}{gap}{unit}"
    if isinf(high):
        return f"at least {low:g}{gap}{unit}"
    if low == -high:
        return f"at most {high:g}{gap}{unit} to either side"
    return f"{low:g} to {high:g}{gap}{unit}"


def spare(value: float, limit: Limit) -> float:
    """How far a value is inside its limit, negative outside; infinity where nothing bounds it.

    >>> spare(9.0, Limit("balance.nose-share", "pct", 8.0, 15.0))
    1.0
    """
    return min(value - low_of(limit), high_of(limit) - value)
