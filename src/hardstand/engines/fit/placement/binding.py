"""What stops a layout from being better: single steps that would be cheaper, and what forbids each."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hardstand.engines.fit.layout.cost import Fault, evaluate, faults
from hardstand.engines.fit.layout.problem import Layout, Problem
from hardstand.engines.fit.placement.prices import lead_mm

STEPS = {"forward": (-1, 0), "aft": (1, 0), "to port": (0, -1), "to starboard": (0, 1)}


@dataclass(frozen=True, slots=True)
class Binding:
    """An item that would better stand a millimetre further, what it would save, and what forbids it.

    saves_mm: of thin lead per millimetre; `faults`: what is wrong with the step, the item left out.
    """

    item: str
    way: str
    saves_mm: float
    faults: tuple[Fault, ...]


def bindings(problem: Problem, layout: Layout, most: int = 8) -> tuple[Binding, ...]:
    """The steps of one millimetre of one item that would save most and are forbidden, dearest first.

    Everything else stays. Of each item the best step only; none where no step would be cheaper.
    """
    now = evaluate(problem, layout).total
    found = []
    for i, item in enumerate(problem.items):
        best: Binding | None = None
        for way, (dx, dy) in STEPS.items():
            spot = replace(layout[i], x_mm=layout[i].x_mm + dx, y_mm=layout[i].y_mm + dy)
            moved = (*layout[:i], spot, *layout[i + 1 :])
            saves = lead_mm(now - evaluate(problem, moved).total)
            if saves <= (best.saves_mm if best else 0.0):
                continue
            wrong = [one for one in faults(problem, moved) if item.id in one.about]
            if wrong:
                there = [
                    Fault(one.what, tuple(row for row in one.about if row != item.id))
                    for one in wrong
                ]
                best = Binding(item.id, way, saves, tuple(dict.fromkeys(there)))
        if best is not None:
            found.append(best)
    return tuple(sorted(found, key=lambda one: -one.saves_mm)[:most])
