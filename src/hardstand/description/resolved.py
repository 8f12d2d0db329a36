"""A part made whole out of its rows, and what is said when that cannot be done."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from hardstand.description.part_search import near_names
from hardstand.description.parts import Part, Port


class PartError(ValueError):
    """A part cannot be made out of its rows: extended in a circle, or the whole does not agree."""

    def __init__(self, part_id: str, message: str) -> None:
        self.part_id = part_id
        super().__init__(message)


class UnknownPartError(PartError):
    """No part has this id; `nearest` holds the names most like it, best first."""

    def __init__(self, part_id: str, known: Iterable[str], extended_by: str = "") -> None:
        self.nearest = near_names(part_id, known)
        said_by = f" (extended by {extended_by})" if extended_by else ""
        hint = f"; the nearest are {', '.join(self.nearest)}" if self.nearest else ""
        what = "generic part" if extended_by == part_id else "part"
        super().__init__(part_id, f"there is no {what} {part_id}{said_by}{hint}")


@dataclass(frozen=True, slots=True)
class Resolved:
    """A part with everything that it extends merged into it.

    `part` has the merged fields and no `extends`; `ports` the merged ports, each keeping in `part`
    the id of the row it was written for; `chain` the ids from the part itself to the last one
    extended, `generic` beside it whether each is a row of the catalogue.
    """

    id: str
    part: Part
    ports: tuple[Port, ...]
    chain: tuple[str, ...]
    generic: tuple[bool, ...]
    own_ports: frozenset[str] = frozenset()
    set_by: Mapping[str, int] = field(default_factory=dict)

    def stands_at(self, name: str) -> str:
        """The address of the row that sets a field, or empty where nobody does (a default).

        Raises ValueError when a part has no such field.

        >>> from hardstand.description.catalogue import resolve
        >>> resolve("pack-li-po-2s-1800").stands_at("cells")
        'part.pack-li-po-2s-1300.cells'
        """
        if name not in Part.model_fields:
            raise ValueError(f"a part has no field {name}")
        link = self.set_by.get(name)
        return "" if link is None else f"part.{self.chain[link]}.{name}"

    def is_generic(self, name: str) -> bool:
        """Whether a field is not the builder's own figure: the catalogue's, or a default."""
        return not self.stands_at(name) or self.generic[self.set_by[name]]
