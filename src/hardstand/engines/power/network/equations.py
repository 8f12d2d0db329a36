"""The equations of the currents at every node: how elements add to matrix and right side."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.elimination import Plan
from hardstand.engines.power.network.laws import Flow
from hardstand.engines.power.network.prepared import Indices, Part, Prepared

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


def _shared(row: Floats) -> Floats:
    """A row as an array of one where all cases share its value."""
    return row[:1] if row.shape[0] > 1 and (row == row[0]).all() else row


class Equations:
    """The matrix and the right side as lists of arrays, and how elements add to them."""

    def __init__(self, plan: Plan, count: int) -> None:
        self.plan, self.ground = plan, count
        self.matrix: list[Floats] = [np.zeros(1) for _ in plan.at]
        self.right: list[Floats] = [np.zeros(1) for _ in range(count)]

    def copy(self) -> Equations:
        """The same, to be added to and used up."""
        other = object.__new__(Equations)
        other.plan, other.ground = self.plan, self.ground
        other.matrix, other.right = list(self.matrix), list(self.right)
        return other

    def slope(self, row: int, column: int, value: Floats) -> None:
        """Add a slope of the current leaving node `row` by the voltage of node `column`."""
        if row < self.ground and column < self.ground:
            at = self.plan.at[row, column]
            self.matrix[at] = self.matrix[at] + value

    def conductance(self, a: int, b: int, value: Floats) -> None:
        """Add a conductance between two nodes."""
        self.slope(a, a, value)
        self.slope(b, b, value)
        self.slope(a, b, -value)
        self.slope(b, a, -value)

    def source(self, node: int, value: Floats) -> None:
        """Add a current into a node."""
        if node < self.ground:
            self.right[node] = self.right[node] + value


def linear(plan: Plan, ready: Prepared, ends: tuple[Indices, Indices], shunt: Floats) -> Equations:
    """The equations of all that is linear, with a shunt (nodes, cases or 1) at every node."""
    made = Equations(plan, len(shunt))
    start, end = ends
    for node, value in enumerate(shunt):
        made.slope(node, node, _shared(value))
    for at, value in zip(ready.plain, ready.plain_siemens, strict=True):
        made.conductance(int(start[at]), int(end[at]), _shared(value))
    for at, value, emf in zip(ready.packs, ready.pack_siemens, ready.emf_v, strict=True):
        made.conductance(int(start[at]), int(end[at]), _shared(value))
        made.source(int(end[at]), _shared(value * emf))
        made.source(int(start[at]), _shared(-value * emf))
    for at in np.flatnonzero(ready.fault_siemens.any(axis=1)):
        a, b = int(ready.fault_start[at]), int(ready.fault_end[at])
        made.conductance(a, b, ready.fault_siemens[at])
    return made


def add_tangents(
    made: Equations, part: Part, flow: Flow, volts: tuple[Floats, Floats], near: Bools
) -> None:
    """Add the tangents of the elements of one kind.

    What draws more at less voltage would turn the search round where nothing else holds the node
    yet; so its slope counts only near the solution, and until then its current alone.
    """
    start_v, end_v = volts
    if (flow.into_start < 0.0).any():
        held = np.where(near, flow.into_start, np.maximum(flow.into_start, 0.0))
        change = held - flow.into_start
        twoway = flow.out is flow.into
        ends = flow.into_end - change if twoway else flow.into_end
        flow = flow._replace(into_start=held, into_end=ends)
        if twoway:
            flow = flow._replace(out_start=held, out_end=ends)
    into = flow.into_start * start_v + flow.into_end * end_v - flow.into
    same = flow.out is flow.into
    out = into if same else flow.out_start * start_v + flow.out_end * end_v - flow.out
    for row in range(len(part.at)):
        a, b = int(part.start[row]), int(part.end[row])
        made.source(a, into[row])
        made.slope(a, a, flow.into_start[row])
        made.slope(a, b, flow.into_end[row])
        if b < made.ground:
            made.source(b, -out[row])
            made.slope(b, b, -flow.out_end[row])
            made.slope(b, a, -flow.out_start[row])
