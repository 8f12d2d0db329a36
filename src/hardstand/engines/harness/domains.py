"""The copper inside items: which domain a port's plus pin lies on, and how power gets across."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hardstand.asbuilt.value import PlacedItem, PlacedPort
from hardstand.description.port_roles import Roles
from hardstand.engines.harness.model import Box, HarnessPort, How, Link

Known = list[tuple[PlacedPort, Roles]]
_DIODES = ("distribution", "regulator")  # several packs on these are kept apart, usually


def domain_of(item: PlacedItem, name: str, known: Known) -> str | None:
    """The domain of a port's plus pin, by `item.rail`; None where no power goes through it.

    What takes power at an item that also gives it has a domain of its own, `item.in-port`: what lies
    between is a link.
    """
    one, role = next((one, role) for one, role in known if one.name == name)
    if role.power == "none":
        return None
    if role.power == "takes" and item.part.coupling != "tie":
        gives = any(other.power in ("gives", "both") for _, other in known)
        own = gives or any(other.port.moving_a is not None for other, _ in known)
        return f"{item.id}.in-{name}" if own else f"{item.id}.in"
    return f"{item.id}.{_rail(item, one, known)}"


def _rail(item: PlacedItem, one: PlacedPort, known: Known) -> str:
    """The rail of a port that gives: its own word, the port itself where each has one, else usual."""
    if item.kind == "pack":
        return "cells"
    if item.part.coupling in ("tie", "own-rail"):
        return one.port.rail or one.name
    return one.port.rail or _usual_rail(item, one, known)


def _usual_rail(item: PlacedItem, one: PlacedPort, known: Known) -> str:
    """One rail, or where the part has two: the first half of its rows of outputs on the first."""
    if (item.part.rails or 1) < 2:
        return "rail"
    rows = list(dict.fromkeys(other.port.id for other, role in known
                              if role.power == "gives" and role.signal == "gives"))  # fmt: skip
    late = one.port.id in rows and rows.index(one.port.id) >= (len(rows) + 1) // 2
    return "rail-2" if late else "rail-1"


def links(boxes: Mapping[str, Box], ports: Iterable[HarnessPort]) -> tuple[Link, ...]:
    """The ways of power inside every item, from what takes it to what gives it."""
    takes: dict[str, list[str]] = {}
    gives: dict[str, list[str]] = {}
    for port in ports:
        if port.item and port.domain is not None and boxes[port.item].kind != "pack":
            into = takes if port.power == "takes" else gives
            into.setdefault(port.item, []).append(port.domain)
    found: list[Link] = []
    for item, rails in gives.items():
        box, outs = boxes[item], list(dict.fromkeys(rails))
        if box.part.coupling == "tie":
            found += [Link(item, outs[0], one, "tie") for one in outs[1:]]
            continue
        inputs = list(dict.fromkeys(takes.get(item, ())))
        how = _how(box)
        pairs = [(one, rail) for one in inputs for rail in outs]
        if how == "own" and len(outs) > 1:
            pairs = list(zip(inputs, outs, strict=False))
        found += [Link(item, one, rail, how) for one, rail in pairs]
    return tuple(found)


def _how(box: Box) -> How:
    named: dict[str | None, How] = {"ideal-diodes": "diode", "joint": "joint", "own-rail": "own"}
    usual: How = "diode" if box.kind in _DIODES else "joint"
    return named.get(box.part.coupling, usual)
