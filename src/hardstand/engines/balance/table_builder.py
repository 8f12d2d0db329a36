"""Collects the components of a mass table, and which inputs each of their numbers follows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from hardstand.asbuilt.value import Inputs3, MassPoint
from hardstand.engines.balance.model import Floats, Links, MassTable
from hardstand.figures import Input

Block = tuple[list[int], list[int], list[int], Floats]  # component, column, axis (E,); factor (E, S)


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
    """Collects components (name, mass, place, inertia, links) for S states, then makes the table.

    They are kept in blocks of C components: mass (C, S), at (C, S, 3), own (C, S, 3, 3).
    """

    states: int
    columns: Columns = field(default_factory=Columns)
    names: list[tuple[str, str, str]] = field(default_factory=list)
    mass: list[Floats] = field(default_factory=list)
    at: list[Floats] = field(default_factory=list)
    own: list[Floats] = field(default_factory=list)
    mass_links: list[Block] = field(default_factory=list)
    place_links: list[Block] = field(default_factory=list)

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
        number, count = len(self.names), len(by_mass)
        self.names.append(name)
        self.mass.append(mass_g[None])
        self.at.append(np.broadcast_to(at_mm, (1, self.states, 3)))
        self.own.append(own_kgm2[None])
        columns = [self.columns.of(one) for one, _ in by_mass]
        factors = np.array([factor for _, factor in by_mass]).reshape(count, self.states)
        self.mass_links.append(([number] * count, columns, [0] * count, factors))
        columns = [self.columns.of(one) for one in place]
        self.place_links.append(([number] * 3, columns, [0, 1, 2], np.ones((3, self.states))))

    def add_points(self, points: Sequence[MassPoint], aboard: Floats) -> None:
        """Many components that stand still, `aboard` (C, S) telling in which states: 1 or 0."""
        if not points:
            return
        first, count = len(self.names), len(points)
        numbers = range(first, first + count)
        self.names += [(one.name, f"{one.table}.{one.id}", one.group) for one in points]
        self.mass.append(aboard * np.array([one.mass.value for one in points])[:, None])
        at = np.array([[axis.value for axis in one.at] for one in points])
        self.at.append(np.broadcast_to(at[:, None], (count, self.states, 3)))
        own = np.array([one.own_kgm2 for one in points])[:, :, None] * np.eye(3)
        self.own.append(aboard[..., None, None] * own[:, None])
        columns = [[self.columns.of(of) for of in (one.mass, *one.at)] for one in points]
        self.mass_links.append(([*numbers], [four[0] for four in columns], [0] * count, aboard))
        self.place_links.append((
            [number for number in numbers for _ in range(3)],
            [column for four in columns for column in four[1:]],
            [0, 1, 2] * count,
            np.ones((3 * count, self.states)),
        ))  # fmt: skip

    def table(self, state_ids: Sequence[str]) -> MassTable:
        """Everything collected as arrays; at least one component."""
        names, subjects, groups = zip(*self.names, strict=True)
        return MassTable(
            tuple(state_ids),
            names,
            subjects,
            groups,
            np.concatenate(self.mass).T,
            np.moveaxis(np.concatenate(self.at), 0, 1),
            np.moveaxis(np.concatenate(self.own), 0, 1),
            tuple(self.columns.inputs),
            self._links(self.mass_links),
            self._links(self.place_links),
        )

    def _links(self, blocks: list[Block]) -> Links:
        component, column, axis = (
            np.array([number for block in blocks for number in block[i]], dtype=np.int64)
            for i in range(3)
        )
        return Links(component, column, axis, np.concatenate([block[3] for block in blocks]))
