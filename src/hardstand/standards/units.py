"""The closed table of units: the suffix a field's name may end in, and how its values are shown.

Files and computation use the unit of the suffix and no other. Other units exist only at the two
rims: in text that a builder writes (`from_text`) and in what is shown (`show`). Factors of the
imperial units are exact by definition: NIST Special Publication 811, appendix B.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import Literal

System = Literal["metric", "imperial"]


class UnitError(ValueError):
    """A text is not a quantity of the kind that its field holds; the message says what would be."""


@dataclass(frozen=True, slots=True)
class Rung:
    """How values from `from_value` upwards are shown: shown = value / `size` + `zero`.

    `from_value` and `size` are in the unit of the suffix; `decimals` is the finest step shown.
    """

    symbol: str
    decimals: int
    size: float = 1.0
    from_value: float = 0.0
    zero: float = 0.0


@dataclass(frozen=True, slots=True)
class Unit:
    """One suffix: what it measures, the library's name of it, an example in another unit, display.

    `metric` and `imperial` are rungs in rising order of `from_value`.
    """

    suffix: str
    quantity: str
    library_name: str
    example: str
    metric: tuple[Rung, ...]
    imperial: tuple[Rung, ...] = ()


OUNCE_G = 28.349523125
POUND_G = 453.59237
_GRAM_RUNGS = (Rung("g", 1), Rung("g", 0, 1.0, 100.0), Rung("kg", 3, 1000.0, 10_000.0))
_OUNCE_RUNGS = (Rung("oz", 2, OUNCE_G), Rung("lb", 2, POUND_G, POUND_G))

UNITS: dict[str, Unit] = {
    unit.suffix: unit
    for unit in (
        Unit("mm", "length", "millimeter", "2.5 in", (Rung("mm", 1),), (Rung("in", 3, 25.4),)),
        Unit("g", "mass", "gram", "14.5 oz", _GRAM_RUNGS, _OUNCE_RUNGS),
        Unit("deg", "angle", "degree", "0.5 rad", (Rung("°", 1),)),
        Unit("s", "time", "second", "1.5 min", (Rung("s", 2),)),
        Unit("v", "voltage", "volt", "7400 mV", (Rung("V", 2),)),
        Unit("a", "current", "ampere", "350 mA", (Rung("A", 2),)),
        Unit("mah", "charge", "milliampere_hour", "5 Ah", (Rung("mAh", 0),)),
        Unit("mohm", "resistance", "milliohm", "0.01 ohm", (Rung("mΩ", 1),)),
        Unit("n", "force", "newton", "22 kgf", (Rung("N", 1),), (Rung("lbf", 2, 4.4482216152605),)),
        Unit("w", "power", "watt", "5000 mW", (Rung("W", 1),)),
        Unit("nm", "torque", "newton*meter", "3.2 kgf cm", (Rung("N·m", 3),),
             (Rung("lbf·in", 2, 0.1129848290276167),)),
        Unit("us", "pulse width", "microsecond", "1.52 ms", (Rung("µs", 0),)),
        Unit("kpa", "pressure", "kilopascal", "90 psi", (Rung("kPa", 1),),
             (Rung("psi", 1, 6.894757293168361),)),
        Unit("ml", "volume", "milliliter", "3.5 l", (Rung("ml", 0),),
             (Rung("US fl oz", 1, 29.5735295625),)),
        Unit("ml_min", "volume flow", "milliliter/minute", "0.5 l/min", (Rung("ml/min", 0),),
             (Rung("US fl oz/min", 2, 29.5735295625),)),
        Unit("m_s", "speed", "meter/second", "120 km/h", (Rung("m/s", 1),),
             (Rung("mph", 1, 0.44704),)),
        Unit("degc", "temperature", "degree_Celsius", "68 °F", (Rung("°C", 1),),
             (Rung("°F", 1, 5.0 / 9.0, 0.0, 32.0),)),
        Unit("kgm2", "moment of inertia", "kilogram*meter**2", "9000 lb in^2",
             (Rung("kg·m²", 4),), (Rung("lb·ft²", 3, 0.04214011009380480),)),
        Unit("hz", "frequency", "hertz", "3000 rpm", (Rung("Hz", 1),)),
        Unit("pct", "ratio", "percent", "12 %", (Rung("%", 1),)),
        Unit("mm2", "area", "millimeter**2", "0.0005 in^2", (Rung("mm²", 2),),
             (Rung("in²", 5, 645.16),)),
        Unit("kg_m3", "density", "kilogram/meter**3", "0.802 g/ml", (Rung("kg/m³", 0),)),
    )
}
_LONGEST_FIRST = tuple(sorted(UNITS, key=len, reverse=True))


@cache
def split_suffix(field: str) -> tuple[str, str | None]:
    """The quantity that a field's name speaks of, and its unit's suffix if it has one.

    The longest suffix wins, and the `_tol` of a tolerance belongs to neither, so that a value and
    its tolerance have the same stem.

    >>> split_suffix("mass_g"), split_suffix("mass_tol_g"), split_suffix("flow_ml_min")
    (('mass', 'g'), ('mass', 'g'), ('flow', 'ml_min'))
    >>> split_suffix("turns"), split_suffix("tail_efficiency_tol")
    (('turns', None), ('tail_efficiency', None))
    """
    for suffix in _LONGEST_FIRST:
        stem = field.removesuffix(f"_{suffix}")
        if stem and stem != field:
            return stem.removesuffix("_tol") or stem, suffix
    return field.removesuffix("_tol") or field, None


def is_tolerance(field: str) -> bool:
    """Whether a field is the half-width of 95 % of another: `<stem>_tol_<unit>` or `<stem>_tol`.

    >>> is_tolerance("mass_tol_g"), is_tolerance("mass_g"), is_tolerance("tail_efficiency_tol")
    (True, False, True)
    """
    stem, suffix = split_suffix(field)
    return field == (f"{stem}_tol_{suffix}" if suffix else f"{stem}_tol")


def from_text(text: str, unit: str, *, difference: bool = False) -> float:
    """A quantity written with its unit, in the unit of a suffix.

    Accepts one decimal number and a unit in words, symbols, products, quotients and small powers
    ("3.2 kgf cm", "9000 lb in^2"). Volumes in ounces, pints and gallons are those of the United
    States unless written "imperial gallon". `rpm` in a frequency means turns a minute.

    Parameters: text; unit, a suffix of the table; difference, true where a temperature is meant as
    a width (a tolerance), so that the zero of its scale plays no part.
    Returns the value in `unit`. Raises UnitError: no number, no unit, unknown unit, another
    quantity; the message names what was expected, with an example.

    >>> from_text("14.5 oz", "g")
    411.068
    >>> from_text("68 °F", "degc")
    20.0
    """
    from hardstand.standards.unit_text import convert

    return convert(text, UNITS[unit], difference=difference)


def show(value: float, unit: str, u: float | None = None, system: System = "metric") -> str:
    """A value as a person reads it, with ± twice its standard uncertainty where that is given.

    Masses are shown in g below 10 kg, else in kg to 0.001; lengths to 0.1 mm. What follows ± keeps
    two digits when it begins with 1 or 2 and else one, never finer than the unit's step and never
    0; the value is rounded to the same place (JCGM 100:2008, 7.2.6 allows at most two digits; the
    choice between one and two is common practice, no source).

    Parameters: value and u (standard uncertainty, not negative) in `unit`, a suffix of the table.
    Returns text such as "312 ± 4 mm".

    >>> show(312.3, "mm", 2.1), show(-6.2, "mm"), show(21500, "g")
    ('312 ± 4 mm', '−6.2 mm', '21.500 kg')
    >>> show(411.07, "g", system="imperial")
    '14.50 oz'
    """
    rungs = UNITS[unit].imperial if system == "imperial" else ()
    rungs = rungs or UNITS[unit].metric
    if not math.isfinite(value):
        return "no value" if math.isnan(value) else f"{'−' if value < 0 else ''}∞"
    rung = rungs[0]
    for following in rungs[1:]:
        if round(abs(value), 9) >= following.from_value - 0.5 * 10.0**-rung.decimals * rung.size:
            rung = following
    shown = value / rung.size + rung.zero
    decimals, after = rung.decimals, ""
    if u is not None and math.isfinite(u) and u > 0.0:
        finest = max(one.decimals for one in rungs if one.symbol == rung.symbol)
        expanded, decimals = _round_expanded(2.0 * u / rung.size, finest)
        after = f" ± {expanded:.{max(decimals, 0)}f}"
    shown = round(shown, decimals) + 0.0  # + 0.0 makes a negative zero positive
    number = f"{shown:.{max(decimals, 0)}f}".replace("-", "−")
    return f"{number}{after}{'' if rung.symbol == '°' else ' '}{rung.symbol}"


def _round_expanded(expanded: float, finest: int) -> tuple[float, int]:
    """U rounded for print, and the number of decimals kept (negative: tens, hundreds)."""
    exponent = math.floor(math.log10(expanded))
    digits = 2 if float(f"{expanded:.1e}"[:3]) < 3.0 else 1
    decimals = min(digits - 1 - exponent, finest)
    return max(round(expanded, decimals), 10.0**-decimals), decimals
