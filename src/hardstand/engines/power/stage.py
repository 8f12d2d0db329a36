"""The power engine as the assessment sees it."""

from __future__ import annotations

from typing import Any

from hardstand.engines.node import Stage
from hardstand.engines.power.analyse import NODES
from hardstand.engines.power.rules import RULES


def described(asbuilt: Any) -> bool:
    """Whether there is a pack, a lead, and something that is said to draw current."""
    parts = [one.part for one in asbuilt.items]
    parts += [one.port for item in asbuilt.items for one in item.ports]
    drawing = asbuilt.loads or any(
        getattr(one, name) is not None for one in parts for name in ("idle_a", "moving_a", "stall_a"))
    known = any(one.kind == "pack" and one.part.cells and one.part.capacity_mah
                for one in asbuilt.items)  # fmt: skip
    return bool(asbuilt.leads and drawing and known)


def missing(asbuilt: Any) -> tuple[str, ...]:
    """What is not described, in words."""
    found = ["the currents that hinge moments ask of servos"]
    if not asbuilt.phases:
        found.append("the phases of a flight and how hard each function works in them")
    if not asbuilt.channels:
        found.append("the channels and what each of them moves")
    return tuple(found)


STAGE = Stage("power", "packs, rails, currents and charge", NODES, RULES, described, missing)
