"""A part and all that it extends made into one: fields, where each was set, ports."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from hardstand.description.generic_parts import generic_part
from hardstand.description.parts import Part, Port
from hardstand.description.resolved import PartError, Resolved
from hardstand.description.same import Made

Chain = list[tuple[Part, bool]]  # from the part to the last one extended; whether it is generic
OwnPorts = Mapping[str, Mapping[str, Port]]  # a builder's ports: part id → port id → port


def merged(part_id: str, chain: Chain, own_ports: OwnPorts) -> Resolved:
    """The whole part of a chain: a field set nearer to the part wins over one set farther off.

    Raises PartError where fields that are right alone do not agree when put together.

    >>> base = Part(id="base", size_mm=(9.0, 9.0, 9.0), mass_g=4.0)
    >>> mine = Part(id="mine", extends="base", mass_g=5.0)
    >>> merged("mine", [(mine, False), (base, False)], {}).part.mass_g
    5.0
    """
    rows: list[object] = [part for part, _ in chain]
    counts = []
    for part, _ in chain:
        ports = own_ports.get(part.id, {})
        rows += ports.values()
        counts.append(len(ports))
    also = (part_id, tuple(is_generic for _, is_generic in chain), tuple(counts))
    return _MADE.of(tuple(rows), also, lambda: _merged(part_id, chain, own_ports))


_MADE = Made[Resolved](4096)


def _merged(part_id: str, chain: Chain, own_ports: OwnPorts) -> Resolved:
    values: dict[str, Any] = {}
    set_by: dict[str, int] = {}
    for link, (part, _) in reversed(list(enumerate(chain))):
        for name in part.model_fields_set - {"extends"}:
            values[name], set_by[name] = getattr(part, name), link
    if values.get("shape") != "ring" and values.pop("inside_mm", None) is not None:
        del set_by["inside_mm"]  # a ring made into another shape has no inside
    try:
        whole = Part.model_validate(values)
    except ValidationError as error:
        reasons = "; ".join(one["msg"].removeprefix("Value error, ") for one in error.errors())
        raise PartError(part_id, f"part {part_id}, with what it extends: {reasons}") from None
    ports, own = _ports(chain, own_ports)
    return Resolved(part_id, whole, ports, tuple(part.id for part, _ in chain),
                    tuple(is_generic for _, is_generic in chain), own, set_by)


def _ports(chain: Chain, own_ports: OwnPorts) -> tuple[tuple[Port, ...], frozenset[str]]:
    """The merged ports in order, and the ids of those whose row is the builder's."""
    ports: dict[str, Port] = {}
    own: set[str] = set()
    rows_of_builder = {part.id for part, is_generic in chain if not is_generic}
    for link, (part, is_generic) in reversed(list(enumerate(chain))):
        if is_generic:
            generic_ports = generic_part(part.id)[1]
            ports |= {port.id: port for port in generic_ports}
            own -= {port.id for port in generic_ports}
        # A builder's ports reach a generic part where the builder names it, not beyond.
        is_named = link == 0 or not chain[link - 1][1]
        if not is_generic or (is_named and part.id not in rows_of_builder):
            ports |= own_ports.get(part.id, {})
            own |= own_ports.get(part.id, {}).keys()
    return tuple(ports.values()), frozenset(own)
