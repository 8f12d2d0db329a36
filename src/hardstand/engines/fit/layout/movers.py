"""The variables of a constraint model: every tray on one sheet, each item with its stances."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from hardstand.engines.fit.layout.board import Board, Standing

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

    Expression = cp_model.LinearExpr | int


@dataclass
class Mover:
    """The variables of one item: x on the sheet, y, and one literal for each stance."""

    x: cp_model.IntVar
    y: cp_model.IntVar
    stances: list[cp_model.IntVar]


@dataclass
class Formulation:
    """A constraint model over a board with what is needed to read and extend it.

    `spans`: for each pull its three distances in half millimetres (0 where an axis is free);
    offsets_mm: how far each tray is moved along x on the sheet.
    """

    board: Board
    model: cp_model.CpModel
    movers: dict[int, Mover]
    held: dict[int, Standing]
    offsets_mm: list[int]
    spans: list[list[Expression]] = field(default_factory=list)
    cost: Expression = 0

    def standings(self, solver: cp_model.CpSolver) -> list[Standing]:
        """The standings of the solver's last solution."""
        found = dict(self.held)
        for i, mover in self.movers.items():
            a = next(a for a, literal in enumerate(mover.stances) if solver.value(literal))
            offset = self.offsets_mm[self.board.stances[i][a].tray]
            found[i] = (a, solver.value(mover.x) - offset, solver.value(mover.y))
        return [found[i] for i in range(len(self.board.problem.items))]

    def hint(self, standings: list[Standing]) -> None:
        """Give the solver a layout to start from."""
        for i, mover in self.movers.items():
            a, x, y = standings[i]
            self.model.add_hint(mover.x, x + self.offsets_mm[self.board.stances[i][a].tray])
            self.model.add_hint(mover.y, y)
            for b, literal in enumerate(mover.stances):
                self.model.add_hint(literal, a == b)


def chosen(mover: Mover, values: list[int]) -> Expression:
    """The value that goes with the stance chosen."""
    if len(set(values)) == 1:
        return values[0]
    low = min(values)
    return low + sum(
        (value - low) * literal
        for value, literal in zip(values, mover.stances, strict=True)
        if value != low
    )
