"""Where a number came from, as plain data: the steps behind a figure and the inputs that move it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from hardstand.assessment import Assessment
    from hardstand.figures import FigureSet, Input

Stand = Callable[[str], Mapping[str, Any]]
_MOST_STEPS = 200


def trace_form(assessment: Assessment, address: str, stand: Stand) -> dict[str, Any]:
    """The tree behind one figure.

    `stand` turns the address where an input was written into {"file", "line", "words"}. Raises
    KeyError where no figure has this address. Inputs come with the largest share of the variance
    first; `per_unit` is the change of the figure for one unit of the input.
    """
    figures = assessment.set_of(address)
    figure = figures.figure(address)
    inputs, method_share = _inputs(figures, address, stand)
    return {"format": 1, "figure": {**figure.as_json(), "method": figure.method},
            "steps": _steps(assessment, address, {address}, [0]), "inputs": inputs,
            "method_share": method_share}


def _steps(assessment: Assessment, address: str, above: set[str], count: list[int]) -> list[dict[str, Any]]:
    """The figures that a figure was worked out from, and those behind them; never in a circle."""
    found = []
    for step in assessment.set_of(address).steps.get(address, ()):
        count[0] += 1
        if step in above or count[0] > _MOST_STEPS:
            continue
        try:
            figure = assessment.figure(step)
        except KeyError:
            continue
        found.append({**figure.as_json(), "steps": _steps(assessment, step, above | {step}, count)})
    return found


def _inputs(figures: FigureSet, address: str, stand: Stand) -> tuple[list[dict[str, Any]], float]:
    row = figures.addresses.index(address)
    total = float(figures.u[row]) ** 2
    found = []
    for one, slope in zip(figures.inputs, figures.sensitivity[row], strict=True):
        if slope:
            share = (float(slope) * one.u) ** 2 / total if total else 0.0
            found.append({**input_form(one, stand), "per_unit": float(slope), "share": share})
    found.sort(key=lambda one: (-one["share"], -abs(one["per_unit"] * one["value"]), one["address"]))
    extra = 0.0 if figures.extra_u is None else float(figures.extra_u[row]) ** 2
    return found, extra / total if total else 0.0


def input_form(one: Input, stand: Stand) -> dict[str, Any]:
    """An input as plain data, with the place where it was written."""
    place = stand(one.stands_at) if one.stands_at else {"file": None, "line": None, "words": "default"}
    return {"address": one.address, "value": one.value, "unit": one.unit, "u": one.u,
            "kind": one.kind, "u_from": one.u_from, "stands_at": one.stands_at, **place}


def moved_form(assessment: Assessment, address: str, stand: Stand) -> dict[str, Any]:
    """What an input moves: every figure that depends on it. Raises KeyError for an unknown input."""
    moved: list[dict[str, Any]] = []
    found: Input | None = None
    for figures in assessment.figure_sets():
        for column, one in enumerate(figures.inputs):
            if one.address == address:
                found = one
                moved += _moved_in(figures, column)
    if found is None:
        raise KeyError(address)
    moved.sort(key=lambda one: (-one["share"], one["address"]))
    return {"format": 1, "input": input_form(found, stand), "moves": moved}


def _moved_in(figures: FigureSet, column: int) -> list[dict[str, Any]]:
    u = figures.u
    return [{**figures.figure(address).as_json(), "per_unit": float(figures.sensitivity[row, column]),
             "share": float((figures.sensitivity[row, column] * figures.inputs[column].u / u[row]) ** 2)
             if u[row] else 0.0}
            for row, address in enumerate(figures.addresses) if figures.sensitivity[row, column]]


def input_addresses(assessment: Assessment) -> list[str]:
    """The addresses of all inputs that some figure depends on, once each."""
    return list(dict.fromkeys(
        one.address for figures in assessment.figure_sets() for one in figures.inputs))
