"""Reading a quantity that is written as text: "14.5 oz", "3.2 kgf cm", "120 km/h".

A general-purpose unit library knows the factors. Between it and the text stands a small reader, for
two reasons: the library evaluates arithmetic, which a file from elsewhere must not be able to ask
for, and some of its names mean something else in a workshop (its `nm` is a nanometre, its `Nm` a
measure of yarn, its `C` a coulomb, and its revolutions are radians).
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from hardstand.standards.units import UNITS, Unit, UnitError

if TYPE_CHECKING:
    import pint

_NUMBER = r"[+\-−]?(?:\d+\.?\d*|\.\d+)(?:[eE][+\-]?\d+)?"
_QUANTITY = re.compile(rf"\s*({_NUMBER})\s*(\S.*?)?\s*", re.DOTALL)
_WORD = re.compile(r"([A-Za-zµμΩ°%_]+)(?:\^|\*\*)?([23²³])?")
_BETWEEN = re.compile(r"\s*([*·⋅/]|(?<=\s))\s*")
_LONGEST_TEXT = 60

_ANGLES = frozenset({"degree", "radian", "turn", "arcminute", "arcsecond", "milliradian"})
_RATIOS = frozenset({"percent", "permille", "ppm"})
# What the library would read otherwise or not at all. The suffixes of the table mean themselves.
_WORDS = {unit.suffix: unit.library_name for unit in UNITS.values()} | {
    "Nm": "newton*meter",
    "Ncm": "newton*centimeter",
    "Nmm": "newton*millimeter",
    "rpm": "1/minute",
    "turns": "turn",
    "kmh": "kilometer/hour",
    "kts": "knot",
    "°C": "degree_Celsius",
    "°F": "degree_Fahrenheit",
    "F": "degree_Fahrenheit",
    "°": "degree",
    "ccm": "milliliter",
    "floz": "fluid_ounce",
}
# A mass where a force or a torque is meant: not guessed, but the message says what to write.
_FORCE_MEANT = {
    "kg cm": "kgf cm", "kgcm": "kgf cm", "kg/cm": "kgf cm", "kg m": "kgf m", "oz in": "ozf in",
    "lb in": "lbf in", "lb ft": "lbf ft", "kg": "kgf", "g": "gf", "oz": "ozf", "lb": "lbf",
}  # fmt: skip


def convert(text: str, target: Unit, *, difference: bool = False) -> float:
    """The value of `text` in `target`; see `units.from_text`, which is how others call it."""
    match = _QUANTITY.fullmatch(text) if len(text) <= _LONGEST_TEXT else None
    if match is None:
        raise _error(text, target, "it does not begin with a number")
    number, words = float(match[1].replace("−", "-")), match[2]
    if words and re.match(r",\d", words):
        raise _error(text, target, "a decimal is written with a point, not a comma")
    if not words:
        raise _error(text, target, "it has no unit; without quotes it is taken as"
                     f" {target.suffix.replace('_', '/')}")
    import pint

    try:
        value = _value(number, _read_unit(text, words, target), target, difference=difference)
    except pint.errors.PintError:  # levels, powers of a temperature: they have no factor
        raise _error(text, target, f'"{words}" is not a unit known here') from None
    if abs(value) == float("inf"):
        raise _error(text, target, "the number is too large")
    return float(f"{value:.12g}")  # drops the conversion's last bits: 68 °F is 20 °C exactly


def _value(number: float, unit: pint.Unit, target: Unit, *, difference: bool) -> float:
    if difference and target.suffix == "degc":
        unit = _registry().parse_units(str(unit).replace("degree_", "delta_degree_"))
        goal = _registry().parse_units("delta_degree_Celsius")
    else:
        goal = _library_unit(target.library_name)
    return float(_registry().Quantity(number, unit).to(goal).magnitude)


def _read_unit(text: str, words: str, target: Unit) -> pint.Unit:
    """The library's unit for the words, or UnitError when it measures another quantity."""
    import pint

    if target.suffix == "mah" and words == "C":
        raise _error(text, target, "C is a rate of charging or discharging")
    celsius = target.suffix == "degc" and words == "C"
    spelled = "degree_Celsius" if celsius else _WORDS.get(words) or _spell(words)
    if spelled is None:
        raise _error(text, target, f'"{words}" is not a unit')
    try:
        unit = _library_unit(spelled)
    except (pint.errors.PintError, ValueError, TypeError, AttributeError):
        raise _error(text, target, f'"{words}" is not a unit known here') from None
    if not _same_quantity(unit, target):
        named = (one.quantity for one in UNITS.values() if _same_quantity(unit, one))
        what = next(named, None)
        why = f"that is {_with_article(what)}" if what else "that measures something else"
        raise _error(text, target, why + _hint(words, target))
    return unit


def _spell(words: str) -> str | None:
    """The unit's words as a product of the library's names; None where they are no such thing."""
    words = re.sub(r"\bfl\.?\s*oz\b", "floz", words.strip())
    words = re.sub(r"\bUS\s+", "", words)
    words = re.sub(r"\bimperial\s+(?=\w)", "imperial_", words)
    spelled, position, operator = "", 0, "*"
    while True:
        word = _WORD.match(words, position)
        if word is None:
            return None
        power = {"²": "2", "³": "3", None: "1"}.get(word[2], word[2])
        spelled += f"{operator if spelled else ''}({_WORDS.get(word[1], word[1])})**{power}"
        position = word.end()
        if position == len(words):
            return spelled
        between = _BETWEEN.match(words, position)
        if between is None or (not between[0]):
            return None
        operator = "/" if between[1] == "/" else "*"
        position = between.end()


def _same_quantity(unit: pint.Unit, target: Unit) -> bool:
    """Same dimension, and angles and ratios only where an angle or a ratio is meant."""
    goal = _library_unit(target.library_name)
    plain = [str(name) for name in dict(unit._units)]  # noqa: SLF001 the library shows no other way
    marked = [name for name in plain if name in _ANGLES | _RATIOS]
    wanted = {"deg": _ANGLES, "pct": _RATIOS}.get(target.suffix, frozenset())
    if wanted:
        return len(plain) == 1 and plain[0] in wanted
    return not marked and bool(unit.dimensionality == goal.dimensionality)


def _hint(words: str, target: Unit) -> str:
    meant = _FORCE_MEANT.get(re.sub(r"\s*[ ·⋅*]\s*", " ", words))
    spelled = _spell(meant) if meant else None
    if spelled is None or not _same_quantity(_library_unit(spelled), target):
        return ""
    return f'; write "{meant}"'


def _error(text: str, target: Unit, why: str) -> UnitError:
    given = text if len(text) <= _LONGEST_TEXT else text[:_LONGEST_TEXT] + "…"
    symbol = target.metric[0].symbol
    return UnitError(f'"{given}" is not {_with_article(target.quantity)}: {why}. Expected a number '
                     f'in {symbol}, or text with a unit such as "{target.example}"')


def _with_article(noun: str) -> str:
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"


@cache
def _registry() -> pint.UnitRegistry[float]:
    import pint

    return pint.UnitRegistry()


@cache
def _library_unit(name: str) -> pint.Unit:
    return _registry().parse_units(name)
