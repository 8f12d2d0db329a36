"""The cost in a constraint model: distances, balances, wishes to be apart, places."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hardstand.engines.fit.layout.movers import Formulation, chosen
from hardstand.engines.fit.layout.pulls import Pull

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

    from hardstand.engines.fit.layout.movers import Expression


def add_costs(made: Formulation) -> None:
    """The cost: a distance for each pull and axis, balances, wishes to be apart, places."""
    from ortools.sat.python import cp_model

    model, problem = made.model, made.board.problem
    terms: list[Expression] = []
    for pull in made.board.pulls:
        one, other = _point(made, pull.item, pull.port), _other(made, pull)
        spans: list[Expression] = []
        for axis in range(3):
            if pull.weight[axis]:
                spans.append(_distance(model, one[axis], other[axis]))
                terms.append(pull.weight[axis] * spans[-1])
            else:
                spans.append(0)
        made.spans.append(spans)
    for balance in problem.balances:
        axis = 0 if balance.axis == "x" else 1
        moment = cp_model.LinearExpr.sum(
            [item.mass_g * _point(made, i, "")[axis] for i, item in enumerate(problem.items)]
        )
        terms.append(balance.weight * _distance(model, moment, 2 * balance.target_g_mm, 10**10))
    for wish in problem.apart:
        one, other = (_point(made, made.board.numbers[item], "") for item in wish.items)
        short = model.new_int_var(0, 2 * wish.distance_mm, "")
        spans = []
        for axis in (0, 1):
            span = model.new_int_var(0, 100_000, "")
            model.add_abs_equality(span, one[axis] - other[axis])
            spans.append(span)
        model.add(short >= 2 * wish.distance_mm - spans[0] - spans[1])
        terms.append(wish.weight * short)
    for i, mover in made.movers.items():
        terms.append(chosen(mover, [one.cost for one in made.board.stances[i]]))
    for i, standing in made.held.items():
        terms.append(made.board.stances[i][standing[0]].cost)
    made.cost = cp_model.LinearExpr.sum(terms)
    model.minimize(made.cost)


def _distance(
    model: cp_model.CpModel, one: Expression, other: Expression, most: int = 100_000
) -> Expression:
    """The distance of two coordinates, or of what they are known to be."""
    if isinstance(one, int) and isinstance(other, int):
        return abs(one - other)
    span = model.new_int_var(0, most, "")
    model.add(span >= one - other)
    model.add(span >= other - one)
    return span


def _point(made: Formulation, i: int, port: str) -> list[Expression]:
    """Twice the place of a port in the aeroplane's axes."""
    choices = made.board.stances[i]
    if i in made.held:
        a, x, y = made.held[i]
        at, z = choices[a].shape.ports[port], choices[a].twice_z
        return [2 * x + at[0], 2 * y + at[1], z + at[2]]
    mover = made.movers[i]
    on_x = [one.shape.ports[port][0] - 2 * made.offsets_mm[one.tray] for one in choices]
    on_y = [one.shape.ports[port][1] for one in choices]
    on_z = [one.twice_z + one.shape.ports[port][2] for one in choices]
    return [
        2 * mover.x + chosen(mover, on_x),
        2 * mover.y + chosen(mover, on_y),
        chosen(mover, on_z),
    ]


def _other(made: Formulation, pull: Pull) -> list[Expression]:
    if pull.other < 0:
        return list(pull.twice)
    return _point(made, pull.other, pull.other_port)
