"""The fit engine as the assessment sees it."""

from __future__ import annotations

from typing import Any

from hardstand.engines.fit.analyse import NODES
from hardstand.engines.fit.compared import compared
from hardstand.engines.fit.rules import RULES
from hardstand.engines.fit.rules_missing import missing_of
from hardstand.engines.node import Stage

WORDS = {"tray": "trays", "bay": "the inside of the fuselage (bays and their sections)"}


def described(asbuilt: Any) -> bool:
    """Whether there is any item to place."""
    return bool(asbuilt.items)


def missing(asbuilt: Any) -> tuple[str, ...]:
    """What is not described, in words."""
    found = [WORDS[name] for name, _ in missing_of(asbuilt)]
    receivers = [item.id for item in asbuilt.items if item.kind == "receiver"]
    without = [one for one in receivers if all(row.item != one for row in asbuilt.antennas)]
    if without:
        found.append(f"the aerials of {', '.join(without)}")
    return tuple(found)


STAGE = Stage("fit", "room and clearance of everything aboard", NODES, RULES, described, missing,
              compared)
