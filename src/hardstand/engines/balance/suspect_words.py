"""A suspected slip in words that a builder can act on."""

from __future__ import annotations

from dataclasses import dataclass

from hardstand.engines.balance.suspects import Suspect
from hardstand.standards.units import show

LEVEL = "level while weighing"
SCALE = "scale of reading"
STATION = "station of"


@dataclass(frozen=True, slots=True)
class Entry:
    """A component as entered: name, mass in g, station in mm."""

    name: str
    mass_g: float
    x_mm: float


def in_words(suspect: Suspect, entry: Entry | None, missing_at_mm: float | None) -> str:
    """The slip as a clause.

    `entry` is None where the slip is not about one; `missing_at_mm` is the station where a forgotten
    item would have to sit, None where there is no saying.

    >>> one = Suspect("mass", 0, "g", 18.0, 3.0, 6.0, 30.0, 1.0, 0.8, 12.0, 0.6)
    >>> in_words(one, Entry("Fin", 168.0, 2100.0), None)
    'Fin weighs 18.0 g more than the 168 g entered'
    """
    if entry is None:
        return _of_the_weighing(suspect, missing_at_mm)
    more = suspect.size > 0.0
    size = show(abs(suspect.size), suspect.unit)
    entered = show(entry.mass_g, "g")
    swapped = show(entry.mass_g + suspect.size, "g")
    words = {
        "mass": f"weighs {size} {'more' if more else 'less'} than the {entered} entered",
        "two digits of the mass swapped": f"weighs {swapped}, not {entered} (two digits swapped)",
        "place along x": f"sits {size} farther {'aft' if more else 'forward'} than at "
        f"station {entry.x_mm:.0f}",
        "place along y": f"sits {size} farther to {'starboard' if more else 'port'} than entered",
        "place on the other side": "sits on the other side",
        "counted twice": f"({entered}) is entered twice, or not on board",
        "ounces entered as grams": f"was weighed in ounces and entered as {entered}",
        "grams entered as ounces": f"was weighed in grams, entered as ounces and so became {entered}",
    }
    return f"{entry.name} {words[suspect.kind]}"


def _of_the_weighing(suspect: Suspect, missing_at_mm: float | None) -> str:
    size = show(abs(suspect.size), suspect.unit)
    more = suspect.size > 0.0
    if suspect.kind == "missing item":
        where = "" if missing_at_mm is None else f" near station {missing_at_mm:.0f}"
        return (
            f"something of {size}{where} is on board and not entered"
            if more
            else f"something of {size}{where} is entered and not on board"
        )
    if suspect.kind == LEVEL:
        return f"the nose stood {size} {'lower' if more else 'higher'} on the scales than stated"
    if suspect.kind.startswith(SCALE):
        name = suspect.kind.removeprefix(SCALE).strip()
        return f"the scale of {name} showed {size} too {'much' if more else 'little'}"
    name = suspect.kind.removeprefix(STATION).strip()
    way = "forward" if more else "aft"
    return f"{name} touches its scale {size} farther {way} than entered"
