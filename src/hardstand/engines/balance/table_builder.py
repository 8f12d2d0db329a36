"""Collects the components of a mass table, and which inputs each of their numbers follows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from hardstand.asbuilt.value import Inputs3
from hardstand.engines.balance.model import Floats, Links, MassTable
from hardstand.figures import Input

Entry = tuple[int, int, int, Floats]


@dataclass
class Columns:
    """Inputs once each, in order of first use.

    >>> columns = Columns()
    >>> columns.of(Input("mass.a.mass_g", 1.0, "g")), columns.of(Input("mass.a.mass_g", 1.0, "g"))
    (0, 0)
    """

    inputs: list[Input] = field(default_factory=list)
    at: dict[str, int] = field(default_factory=dict)

    def of(self, one: Input) -> int:
        """The column of an input; an address seen before is the same cause."""
        if one.address not in self.at:
            self.at[one.address] = len(self.inputs)
            self.inputs.append(one)
        return self.at[one.address]


@dataclass
class TableBuilder:
    """Collects components (name, mass, place, inertia, links) for S states, then makes the table."""

    states: int
    columns: Columns = field(default_factory=Columns)
    names: list[tuple[str, str, str]] = field(default_factory=list)
    mass: list[Floats] = field(default_factory=list)
    at: list[Floats] = field(default_factory=list)
    own: list[Floats] = field(default_factory=list)
    mass_links: list[Entry] = field(default_factory=list)
    place_links: list[Entry] = field(default_factory=list)

    def add(
        self,
        name: tuple[str, str, str],
        mass_g: Floats,
        at_mm: Floats,
        own_kgm2: Floats,
        by_mass: Sequence[tuple[Input, Floats]],
        place: Inputs3,
    ) -> None:
        """One component: (name, subject, group), mass (S,), place (3,) or (S, 3), inertia (S, 3, 3).

        `by_mass` are the inputs that its mass follows and by how much in each state (S,).
        """
        number = len(self.names)
        self.names.append(name)
        self.mass.append(mass_g)
        self.at.append(np.broadcast_to(at_mm, (self.states, 3)))
        self.own.append(own_kgm2)
        self.mass_links += [(number, self.columns.of(one), 0, factor) for one, factor in by_mass]
        full = np.ones(self.states)
        self.place_links += [
            (number, self.columns.of(one), axis, full) for axis, one in enumerate(place)
        ]

    def table(self, state_ids: Sequence[str]) -> MassTable:
        """Everything collected as arrays; at least one component."""
        names, subjects, groups = zip(*self.names, strict=True)
        return MassTable(
            tuple(state_ids),
            names,
            subjects,
            groups,
            np.array(self.mass).T,
            np.moveaxis(np.array(self.at), 0, 1),
            np.moveaxis(np.array(self.own), 0, 1),
            tuple(self.columns.inputs),
            self._links(self.mass_links),
            self._links(self.place_links),
        )

    def _links(self, entries: list[Entry]) -> Links:
        component, column, axis = (
            np.array([entry[i] for entry in entries], dtype=np.int64) for i in range(3)
        )
        factor = np.array([entry[3] for entry in entries]).reshape(len(entries), self.states)
        return Links(component, column, axis, factor)
