"""How a browser wants its pages: units and paper. Kept in its own cookies; files never change."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hardstand.standards.units import System

UNITS: tuple[System, ...] = ("metric", "imperial")
PAPERS = ("system", "light", "dark")


@dataclass(frozen=True)
class Preferences:
    """`paper` is "light", "dark", or "system": as the device has it."""

    units: System = "metric"
    paper: str = "system"


def preferences_of(cookies: Mapping[str, str]) -> Preferences:
    """The preferences in cookies; what is none of the known words is left at its default.

    >>> preferences_of({"hardstand-units": "imperial", "hardstand-paper": "pink"})
    Preferences(units='imperial', paper='system')
    """
    units: System = "imperial" if cookies.get("hardstand-units") == "imperial" else "metric"
    paper = next((one for one in PAPERS if one == cookies.get("hardstand-paper")), "system")
    return Preferences(units, paper)
