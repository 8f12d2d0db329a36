"""The catalogue as an aeroplane sees it: generic parts under the builder's own, chains merged.

How rows of one id meet:

- A builder's part without `extends` stands for itself, and if it has the id of a generic part it
  takes that one's place whole, ports included.
- A builder's part with `extends` is that part with the given fields changed. `extends` with its own
  id varies the generic part of that id.
- A builder's port for a generic part, without a part row, varies that part's ports.
- A generic part always extends the generic part, so that replacing one part changes no other.
"""

from __future__ import annotations

from collections.abc import Iterable

from hardstand.description.generic_parts import generic, generic_ids, generic_part, generic_rows
from hardstand.description.merging import Chain, merged
from hardstand.description.model import Description
from hardstand.description.part_search import search_parts
from hardstand.description.parts import Part, PartKind, Port
from hardstand.description.resolved import PartError, Resolved, UnknownPartError

__all__ = ["Catalogue", "PartError", "Resolved", "UnknownPartError", "generic", "generic_ids",
           "generic_rows", "resolve", "resolved_parts", "search"]


class Catalogue:
    """The generic parts with a builder's own laid over them.

    >>> mine = Part(id="my-receiver", extends="receiver-12-channel", mass_g=19.0)
    >>> Catalogue([mine]).resolve("my-receiver").part.size_mm
    (52.0, 28.0, 13.0)
    """

    def __init__(self, parts: Iterable[Part] = (), ports: Iterable[Port] = ()) -> None:
        self._own = {part.id: part for part in parts}
        self._own_ports: dict[str, dict[str, Port]] = {}
        for port in ports:
            self._own_ports.setdefault(port.part, {})[port.id] = port
        self._resolved: dict[str, Resolved] = {}

    @property
    def ids(self) -> frozenset[str]:
        """The ids of all parts, generic and own."""
        return generic_ids() | self._own.keys()

    def parts(self) -> tuple[Part, ...]:
        """All parts, merged, in the order of their ids. Raises PartError."""
        return tuple(self.resolve(part_id).part for part_id in sorted(self.ids))

    def resolve(self, part_id: str) -> Resolved:
        """A part merged with what it extends. Raises UnknownPartError, PartError."""
        if part_id not in self._resolved:
            self._resolved[part_id] = merged(part_id, self._chain(part_id), self._own_ports)
        return self._resolved[part_id]

    def _chain(self, part_id: str) -> Chain:
        """The part and all that it extends, each with whether it is the catalogue's."""
        chain: Chain = []
        seen: list[tuple[str, bool]] = []
        wanted: str | None = part_id
        is_generic = False
        while wanted is not None:
            is_generic = is_generic or wanted not in self._own
            if (wanted, is_generic) in seen:
                circle = " → ".join([*(one for one, _ in seen), wanted])
                raise PartError(part_id, f"part {part_id} extends in a circle: {circle}")
            if is_generic and wanted not in generic_ids():
                extended_by = chain[-1][0].id if chain else ""
                raise UnknownPartError(wanted, self.ids - {wanted}, extended_by)
            part = generic_part(wanted)[0] if is_generic else self._own[wanted]
            chain.append((part, is_generic))
            seen.append((wanted, is_generic))
            is_generic = is_generic or part.extends == wanted
            wanted = part.extends
        return chain


def resolve(part_id: str, parts: Iterable[Part] = (), ports: Iterable[Port] = ()) -> Resolved:
    """One part out of the catalogue with a builder's own parts and ports laid over it.

    For many parts make one `Catalogue` and ask it. Raises UnknownPartError, PartError.

    >>> resolve("servo-standard-8v4").part.torque_nm
    2.5
    """
    return Catalogue(parts, ports).resolve(part_id)


def resolved_parts(description: Description) -> dict[str, Resolved]:
    """The parts that a description's items and packs on hand name, by id, each merged.

    Raises UnknownPartError, PartError.

    >>> resolved_parts(Description.model_validate({"format": 1, "aeroplane": {"name": "Bare"}}))
    {}
    """
    catalogue = Catalogue(description.part, description.port)
    named = [row.part for row in description.item] + [row.part for row in description.on_hand]
    return {part_id: catalogue.resolve(part_id) for part_id in named}


def search(words: str, kind: PartKind | None = None,
           parts: Iterable[Part] | None = None) -> list[Part]:
    """Parts that every one of the words fits, in id, name, kind or note, in the order of their ids.

    `parts` are merged parts (`Catalogue.parts()`); without them the catalogue's own. A word that
    fits no part is taken as a slip for the nearest one that does.

    >>> [part.id for part in search("recever 12 remote")]
    ['receiver-12-channel-remote-aerials']
    """
    return search_parts(words, Catalogue().parts() if parts is None else parts, kind)
