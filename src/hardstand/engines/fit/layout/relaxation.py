"""A relaxation of the problem that a linear solver can bound: items may overlap until told not to.

Each stance of an item has its own share of the item (0 or 1) and of its corner's coordinates, so
that reach, ports and heights are exact convex hulls. What a lead must measure, given the stances of
its two items, is known beforehand from the pair by itself (`nearest_ends`) and enters as a
transport table between the stances. That items keep apart is added pair by pair, and holes in the
free positions one by one, where a solution violates them: few are ever needed.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from hardstand.engines.fit.layout.board import Board
from hardstand.engines.fit.layout.nearest_ends import alone_cost, level_apart, nearest_apart
from hardstand.engines.fit.layout.problem import Rectangle
from hardstand.engines.fit.layout.pulls import Pull
from hardstand.engines.fit.layout.rows import Floats, Rows, Terms

Place = tuple[int, float, float]


@dataclass
class Relaxation:
    """The rows of a board. choice, across (2): columns of stances and of x and y by item."""

    board: Board
    rows: Rows = field(default_factory=Rows)
    choice: list[list[int]] = field(default_factory=list)
    across: tuple[list[list[int]], list[list[int]]] = field(default_factory=lambda: ([], []))

    def __post_init__(self) -> None:
        for i, choices in enumerate(self.board.stances):
            self.choice.append(self.rows.columns(len(choices), 0.0, 1.0, whole=True))
            self.rows.add([(column, 1.0) for column in self.choice[i]], 1.0, 1.0)
            for a, one in enumerate(choices):
                self.rows.cost[self.choice[i][a]] = one.cost
            for axis in (0, 1):
                self._reach(i, axis)
        fixed: dict[int, list[tuple[Pull, list[int]]]] = {}
        for pull in self.board.pulls:
            spans = self._spans(pull)
            if pull.other < 0:
                fixed.setdefault(pull.item, []).append((pull, spans))
            else:
                self._between(pull, spans)
        for i, found in fixed.items():
            least = alone_cost(self.board, i, [pull for pull, _ in found])
            terms = [
                (span, float(weight))
                for pull, spans in found
                for span, weight in zip(spans, pull.weight, strict=True)
            ]
            terms += [(p, -low) for p, low in zip(self.choice[i], least.tolist(), strict=True)]
            self.rows.add(terms, 0.0, np.inf)
        self._balances()

    def _reach(self, i: int, axis: int) -> None:
        """Columns of the corner's coordinate by stance: within reach, or 0 where not chosen."""
        choices = self.board.stances[i]
        columns = self.rows.columns(len(choices), -np.inf, np.inf)
        self.across[axis].append(columns)
        for one, column, chosen in zip(choices, columns, self.choice[i], strict=True):
            low, high = (one.x_mm, one.last_x_mm) if axis == 0 else (one.y_mm, one.last_y_mm)
            self.rows.add([(column, 1.0), (chosen, -float(low))], 0.0, np.inf)
            self.rows.add([(column, 1.0), (chosen, -float(high))], -np.inf, 0.0)

    def _twice(self, i: int, port: str, axis: int) -> Terms:
        """Twice the coordinate of a port along x or y."""
        offsets = [one.shape.ports[port][axis] for one in self.board.stances[i]]
        terms = [(column, 2.0) for column in self.across[axis][i]]
        return terms + [(p, float(off)) for p, off in zip(self.choice[i], offsets, strict=True)]

    def _spans(self, pull: Pull) -> list[int]:
        """Columns of a pull's distances in half mm along x, y and z, costed."""
        spans = self.rows.columns(3, 0.0, np.inf)
        for axis, (span, weight) in enumerate(zip(spans, pull.weight, strict=True)):
            self.rows.cost[span] = float(weight)
            if axis == 2 or not weight:
                continue
            terms, level = self._twice(pull.item, pull.port, axis), 0.0
            if pull.other < 0:
                level = float(pull.twice[axis])
            else:
                other = self._twice(pull.other, pull.other_port, axis)
                terms = [*terms, *((column, -value) for column, value in other)]
            self.rows.add([*terms, (span, -1.0)], -np.inf, level)
            self.rows.add([*terms, (span, 1.0)], level, np.inf)
        if pull.other < 0:
            at = [
                abs(one.twice_z + one.shape.ports[pull.port][2] - pull.twice[2])
                for one in self.board.stances[pull.item]
            ]
            chosen = zip(self.choice[pull.item], at, strict=True)
            self.rows.add([(spans[2], 1.0), *((p, -float(z)) for p, z in chosen)], 0.0, np.inf)
        return spans

    def _between(self, pull: Pull, spans: list[int]) -> None:
        """The table between the stances of two items, and what the lead measures at least by it."""
        one, other = self.choice[pull.item], self.choice[pull.other]
        table = np.array(self.rows.columns(len(one) * len(other), 0.0, 1.0))
        table = table.reshape(len(one), len(other))
        for chosen, line in [*zip(one, table, strict=True), *zip(other, table.T, strict=True)]:
            self.rows.add([(chosen, -1.0), *((int(q), 1.0) for q in line)], 0.0, 0.0)
        level = level_apart(self.board, pull)
        for columns, least in (
            (spans, nearest_apart(self.board, pull) + level),
            (spans[2:], level),
        ):
            values = zip(table.ravel().tolist(), least.ravel().tolist(), strict=True)
            self.rows.add(
                [*((span, 1.0) for span in columns), *((q, -float(low)) for q, low in values)],
                0.0,
                np.inf,
            )

    def _balances(self) -> None:
        for balance in self.board.problem.balances:
            axis, terms = (0 if balance.axis == "x" else 1), []
            for i, item in enumerate(self.board.problem.items):
                terms += [(c, item.mass_g * v) for c, v in self._twice(i, "", axis)]
            (off,) = self.rows.columns(1, 0.0, np.inf, float(balance.weight))
            target = 2.0 * balance.target_g_mm
            self.rows.add([*terms, (off, -1.0)], -np.inf, target)
            self.rows.add([*terms, (off, 1.0)], target, np.inf)

    def keep_apart(self, i: int, part: int, j: int, other: int, tray: int) -> None:
        """Part of item i and part of item j do not overlap where both stand on that tray."""
        sides = self.rows.columns(4, 0.0, 1.0, whole=True)
        on = [self.on(i, tray), self.on(j, tray)]
        here = [[(self.choice[k][a], 1.0) for a in row] for k, row in zip((i, j), on, strict=True)]
        self.rows.add(
            [*((s, 1.0) for s in sides), *((p, -1.0) for p, _ in here[0] + here[1])], -1.0, np.inf
        )
        for row in here:
            self.rows.add([*((s, 1.0) for s in sides), *((p, -1.0) for p, _ in row)], -np.inf, 0.0)
        gap = self._gap(i, part, j, other)
        ends = ((i, part, on[0], here[0]), (j, other, on[1], here[1]))
        for number, side in enumerate(sides):
            axis, turned = divmod(number, 2)
            before, after = ends[turned], ends[1 - turned]
            low, high = self._extent(tray, axis)
            span = high - low + gap
            terms = self._side(before[0], before[1], before[2], axis, 1, low - gap)
            terms += [(c, -v) for c, v in self._side(*after[:3], axis, 0, low)]
            terms += [(side, span), *((p, -span) for p, _ in before[3])]
            self.rows.add(terms, -np.inf, 0.0)

    def beside(
        self, i: int, part: int, j: int, other: int, tray: int, side: int
    ) -> tuple[Terms, float, float]:
        """Part of item i beside part of item j, both on that tray: before or after it in x, y (0-3)."""
        axis, turned = divmod(side, 2)
        ends = ((i, part, self.on(i, tray)), (j, other, self.on(j, tray)))
        before, after = ends[turned], ends[1 - turned]
        terms = self._side(*after, axis, 0, 0.0)
        terms += [(c, -v) for c, v in self._side(*before, axis, 1, 0.0)]
        return terms, float(self._gap(i, part, j, other)), np.inf

    def _gap(self, i: int, part: int, j: int, other: int) -> float:
        boxes = (
            self.board.stances[i][0].shape.parts[part],
            self.board.stances[j][0].shape.parts[other],
        )
        return 0.0 if any(one.plug for one in boxes) else float(self.board.problem.gap_mm)

    def on(self, i: int, tray: int) -> list[int]:
        """The stances of item i on a tray."""
        return [a for a, one in enumerate(self.board.stances[i]) if one.tray == tray]

    def _side(self, i: int, part: int, on: list[int], axis: int, end: int, origin: float) -> Terms:
        """The low (0) or high (1) side of a part from an origin; 0 where it stands elsewhere."""
        terms: Terms = [(self.across[axis][i][a], 1.0) for a in on]
        for a in on:
            room = self.board.stances[i][a].shape.parts[part].room
            ends = ((room.x0_mm, room.x1_mm), (room.y0_mm, room.y1_mm))
            terms.append((self.choice[i][a], ends[axis][end] - origin))
        return terms

    def _extent(self, tray: int, axis: int) -> tuple[float, float]:
        """Least and greatest coordinate that any part reaches on a tray."""
        low, high = [], []
        for row in self.board.stances:
            for one in row:
                if one.tray != tray:
                    continue
                for part in one.shape.parts:
                    room = part.room
                    if axis == 0:
                        low.append(one.x_mm + room.x0_mm)
                        high.append(one.last_x_mm + room.x1_mm)
                    else:
                        low.append(one.y_mm + room.y0_mm)
                        high.append(one.last_y_mm + room.y1_mm)
        return float(min(low)), float(max(high))

    def keep_out_of(self, i: int, a: int, hole: Rectangle) -> None:
        """The corner of item i in stance a stays out of positions that are not free."""
        sides = self.rows.columns(4, 0.0, 1.0, whole=True)
        chosen, one = self.choice[i][a], self.board.stances[i][a]
        self.rows.add([*((s, 1.0) for s in sides), (chosen, -1.0)], 0.0, 0.0)
        spans = (
            (0, one.x_mm, one.last_x_mm, hole.x0_mm, hole.x1_mm),
            (1, one.y_mm, one.last_y_mm, hole.y0_mm, hole.y1_mm),
        )
        for axis, low, high, first, past in spans:
            at, under, over = self.across[axis][i][a], sides[2 * axis], sides[2 * axis + 1]
            self.rows.add(
                [(at, 1.0), (chosen, -float(high)), (under, float(high - first + 1))], -np.inf, 0.0
            )
            self.rows.add(
                [(at, 1.0), (chosen, -float(low)), (over, -float(past - low))], 0.0, np.inf
            )

    def whole_millimetres(self, i: int) -> None:
        """The corner of item i is on the 1 mm grid."""
        for axis in (0, 1):
            (column,) = self.rows.columns(1, -np.inf, np.inf, whole=True)
            terms = [(c, 1.0) for c in self.across[axis][i]]
            self.rows.add([*terms, (column, -1.0)], 0.0, 0.0)

    def places(self, values: Floats) -> list[Place]:
        """Stance and corner of each item in a solution, the corner perhaps between millimetres."""
        found = []
        for i, chosen in enumerate(self.choice):
            a = int(np.argmax(values[chosen]))
            x, y = (float(values[self.across[axis][i][a]]) for axis in (0, 1))
            found.append((a, x, y))
        return found
