"""A contradiction in a builder's words, with names, ids and millimetres."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.asbuilt.value import AsBuilt
from hardstand.engines.fit.layout.infeasible import Easing
from hardstand.engines.fit.layout.requirements import Requirement
from hardstand.engines.fit.placement.free import Freedom


def named(asbuilt: AsBuilt, one: str) -> str:
    """An id with its name: `Power distribution (distribution-unit)`; the id alone without one."""
    rows: tuple[Any, ...] = (
        *asbuilt.items, *asbuilt.trays, *asbuilt.keep_outs, *asbuilt.hatches
    )  # fmt: skip
    name = next((row.name for row in rows if row.id == one), "")
    return f"{name} ({one})" if name and name != one else one


def requirement_words(
    one: Requirement, asbuilt: AsBuilt, free: Mapping[str, Freedom], gap_mm: int
) -> str:
    """One requirement as a clause."""
    first = named(asbuilt, one.about[0]) if one.about else ""
    if one.kind == "item":
        trays = " or ".join(named(asbuilt, tray) for tray in free[one.about[0]].trays)
        return f"{first} finds room on {trays}"
    if one.kind == "gap":
        return f"boxes stand {gap_mm} mm apart beyond what their places are known to"
    if one.kind == "headroom":
        return f"no more height than stated is free above {first}"
    if one.kind == "place":
        return f"{first} stays within {_range_words(free[one.about[0]], asbuilt)}"
    if one.kind == "keep-out":
        return f"{_still_words(asbuilt, one.about[1])} (over {first})"
    return f"{first} keeps room for its plugs and the bend of their leads"


def _range_words(one: Freedom, asbuilt: AsBuilt) -> str:
    spans = [
        f"{axis} {given[0]:g} to {given[1]:g} mm" if given[0] != given[1] else f"{axis} {given[0]:g} mm"
        for axis, given in (("x", one.x_mm), ("y", one.y_mm))
        if given is not None
    ]
    if not spans:
        through = named(asbuilt, str(one.item.through))
        return f"reach of {through}"
    return " and ".join(spans)


def _still_words(asbuilt: AsBuilt, one: str) -> str:
    who = named(asbuilt, one)
    kinds: tuple[tuple[Any, str], ...] = (
        ((row.id for row in asbuilt.items), "{} stays where it is"),
        ((row.id for row in asbuilt.hatches), "what goes through {} stands under it"),
        ((row.id for row in asbuilt.trays), "boxes stay off {} and its edges"),
        ((row.bay for row in asbuilt.sections), "all stay within the skin of {}"),
        ((row.id for row in asbuilt.antennas), "the aerial {} keeps its distances"),
    )
    words = next((words for ids, words in kinds if one in ids), "{} is kept clear of")
    return words.format(who)


def easing_words(one: Easing, asbuilt: AsBuilt) -> str:
    """One way out as a clause."""
    by = f"{one.by_mm} mm"
    words = {
        "longer": "{0} {1} longer",
        "wider": "{0} {1} wider",
        "gap": "boxes {1} nearer to one another",
        "headroom": "{1} more height above {0}",
        "place": "a range {1} wider to each side for {0}",
        "plugs": "{1} less plug room at {0}",
        "keep-out": "{2} {1} smaller on each side",
    }
    about = [named(asbuilt, row) for row in one.about]
    template = words.get(one.kind)
    if template is None:
        return f"{one.text} by {by}"
    return template.format(about[0] if about else "", by, about[1] if len(about) > 1 else "")

