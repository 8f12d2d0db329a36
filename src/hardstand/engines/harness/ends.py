"""Ports of items, ways of joints and free names as ends of leads, with all that they do."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from hardstand.asbuilt.value import PlacedItem, PlacedPort
from hardstand.description.items import UNKNOWN, Lead
from hardstand.description.network import Joint, Load
from hardstand.description.parts import Part, Port
from hardstand.description.port_roles import Roles, roles
from hardstand.engines.harness.domains import domain_of
from hardstand.engines.harness.loads import loads_at
from hardstand.engines.harness.model import HarnessPort
from hardstand.engines.harness.port_points import ends_of_joint
from hardstand.engines.kept import Kept

UNKNOWN_END = "unknown at {}"  # every unknown end is one of its own
_BLANK: dict[str, Any] = {
    "item": "", "row": "", "connector": "", "poles": None, "gender": "none", "form": None,
    "needed": False, "domain": None, "current_a": None, "low_v": None, "high_v": None,
    "contact_mohm": None, "fuse_a": None, "at_mm": None, "flying_mm": 0.0,
}  # fmt: skip


@dataclass(frozen=True)
class _Wired:
    """What of an item decides its ports, wherever it is; `given` by the names of its ports."""

    id: str
    kind: str
    part: Part
    ports: tuple[PlacedPort, ...]
    given: Mapping[str, Load]
    item: PlacedItem = field(compare=False)

    def ends(self) -> tuple[HarnessPort, ...]:
        known = [(one, roles(self.part, one.port)) for one in self.ports]
        return tuple(_port(self.item, one, role, known, self.given) for one, role in known)


def item_ends(
    items: Iterable[PlacedItem], loads: Iterable[Load], kept: Kept
) -> dict[str, HarnessPort]:
    """The ports of all items, by end, without their places."""
    given: dict[str, dict[str, Load]] = {}
    for load in loads:
        given.setdefault(load.at.partition(".")[0], {})[load.at] = load
    wired = {one.id: _Wired(one.id, one.kind, one.part, one.ports, given.get(one.id, {}), one)
             for one in items}  # fmt: skip
    found = kept.each("ports", wired, _Wired.ends)
    return {port.end: port for ports in found.values() for port in ports}


def _port(
    item: PlacedItem,
    one: PlacedPort,
    role: Roles,
    known: list[tuple[PlacedPort, Roles]],
    given: Mapping[str, Load],
) -> HarnessPort:
    port: Port = one.port
    end = f"{item.id}.{one.name}"
    return HarnessPort(
        end, item.id, f"{item.id}.{port.id}", "item", port.kind, port.connector, port.poles,
        port.gender, role.pins, role.power, role.signal, role.form, role.needed,
        domain_of(item, one.name, known), port.current_a,
        port.low_v if port.low_v is not None else item.part.low_v,
        port.high_v if port.high_v is not None else item.part.high_v,
        port.contact_mohm, port.fuse_a, loads_at(item, one, role, known, given.get(end)),
        None, port.flying_lead_mm or 0.0,
    )  # fmt: skip


def joint_ends(joints: Iterable[Joint]) -> dict[str, HarnessPort]:
    """The ways of joints: they neither give nor take, they pass on."""
    found = {}
    for joint in joints:
        for end in ends_of_joint(joint):
            given = {"connector": joint.connector, "poles": joint.poles,
                     "current_a": joint.current_a, "contact_mohm": joint.contact_mohm}  # fmt: skip
            found[end] = HarnessPort(
                end=end, where="joint", kind="both", pins=joint.way_pins, power="none",
                signal="none", load={}, **{**_BLANK, **given},
            )  # fmt: skip
    return found


def ends_of(lead: Lead) -> tuple[str, str]:
    """A lead's two ends; one that nobody knows is its own alone."""
    return tuple(  # type: ignore[return-value]
        UNKNOWN_END.format(lead.id) if end == UNKNOWN else end for end in (lead.from_, lead.to)
    )


def free_ends(
    leads: Iterable[Lead], known: Mapping[str, HarnessPort], loads: Iterable[Load]
) -> dict[str, HarnessPort]:
    """The ends that are no item's port and no joint: something at the end of a lead, or a splice.

    One at which a single lead ends is taken as a load that fits; more are joined there.
    """
    given = {load.at: load for load in loads}
    meeting: dict[str, list[Lead]] = {}
    for lead in leads:
        for end in ends_of(lead):
            if end not in known:
                meeting.setdefault(end, []).append(lead)
    found = {}
    for end, here in meeting.items():
        far = next((known[one] for one in ends_of(here[0]) if one in known), None)
        pins = far.pins if far is not None else ("signal", "plus", "minus")
        alone = len(here) == 1 and not end.startswith("unknown at ")
        found[end] = HarnessPort(
            end=end, where="free" if " " not in end else "unknown", kind=far.kind if far else "both",
            pins=pins, power="takes" if alone and "plus" in pins else "none",
            signal="takes" if alone and "signal" in pins else "none",
            load=loads_at(None, None, None, [], given.get(end)),
            **{**_BLANK, "domain": f"{end}.in" if alone else None},
        )  # fmt: skip
    return found
