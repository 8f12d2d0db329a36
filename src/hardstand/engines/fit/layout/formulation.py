"""The problem as a constraint model: every tray on one sheet, boxes and plug rooms as intervals.

Some items may be held at their standings: they become obstacles. The cost is modelled with
one-sided absolute values, so a solver's own cost may be slack: layouts are always costed anew.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np

from hardstand.engines.fit.layout.board import Board, Standing
from hardstand.engines.fit.layout.costing import add_costs
from hardstand.engines.fit.layout.keeping_apart import keep_apart
from hardstand.engines.fit.layout.movers import Formulation, Mover

if TYPE_CHECKING:
    from ortools.sat.python import cp_model


def formulate(
    board: Board, held: Mapping[int, Standing] | None = None, costed: bool = True
) -> Formulation:
    """The model with the items of `held` kept still; not `costed`: any legal layout will do.

    Raises ValueError where an item has no stance at all.
    """
    from ortools.sat.python import cp_model

    kept = dict(held or {})
    for i, choices in enumerate(board.stances):
        if not choices:
            raise ValueError(f"{board.problem.items[i].id} has no place by itself")
        if board.problem.items[i].fixed is not None:
            kept[i] = (0, choices[0].x_mm, choices[0].y_mm)
    model = cp_model.CpModel()
    offsets = _offsets(board)
    movers = {
        i: _mover(model, board, i, offsets)
        for i in range(len(board.problem.items))
        if i not in kept
    }
    made = Formulation(board, model, movers, kept, offsets)
    keep_apart(made)
    if costed:
        add_costs(made)
    return made


def _offsets(board: Board) -> list[int]:
    """Trays side by side along x, far enough apart that nothing of two trays can meet."""
    found, at = [], 0
    for tray in board.problem.trays:
        xs = [point[0] for point in tray.outline_mm]
        found.append(at - int(np.floor(min(xs))))
        at += int(np.ceil(max(xs) - min(xs))) + 1000
    return found


def _mover(model: cp_model.CpModel, board: Board, i: int, offsets: list[int]) -> Mover:
    """Variables of one item, held within each stance's reach."""
    choices = board.stances[i]
    low_x = min(one.x_mm + offsets[one.tray] for one in choices)
    high_x = max(one.last_x_mm + offsets[one.tray] for one in choices)
    x = model.new_int_var(low_x, high_x, f"x{i}")
    y = model.new_int_var(
        min(one.y_mm for one in choices), max(one.last_y_mm for one in choices), f"y{i}"
    )
    literals = [model.new_bool_var(f"s{i}.{a}") for a in range(len(choices))]
    model.add_exactly_one(literals)
    for one, literal in zip(choices, literals, strict=True):
        offset = offsets[one.tray]
        model.add_linear_constraint(x, one.x_mm + offset, one.last_x_mm + offset).only_enforce_if(
            literal
        )
        model.add_linear_constraint(y, one.y_mm, one.last_y_mm).only_enforce_if(literal)
    return Mover(x, y, literals)
