"""What the CG of one state is judged by: the range, the target, and how the state stands to them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hardstand.asbuilt.value import Inputs3
from hardstand.description.aeroplane import AeroplaneTable
from hardstand.engines.balance.model import Headline


@dataclass(frozen=True, slots=True)
class Judged:
    """The state whose CG is judged, mm from the datum: CG, mass, range and target (None if not given).

    `goal_mm` is what ways out aim at: the middle of the target, else of the range.
    """

    state_id: str
    row: int
    mass_g: float
    cg_mm: float
    mark_mm: float
    range_mm: tuple[float, float] | None
    target_mm: tuple[float, float] | None

    @property
    def goal_mm(self) -> float:
        """Station aimed at: the middle of target or range, or where the CG is."""
        ends = self.target_mm or self.range_mm
        return sum(ends) / 2.0 if ends else self.cg_mm

    @property
    def allowed_mm(self) -> tuple[float, float]:
        """The range around the goal; where none is given, the target."""
        ends = self.range_mm or self.target_mm
        assert ends is not None  # only asked for where one of them is given
        return min(ends[0], self.goal_mm), max(ends[1], self.goal_mm)

    @property
    def content(self) -> bool:
        """True where the CG's value lies inside both the range and the target."""
        return all(
            ends is None or ends[0] <= self.cg_mm <= ends[1]
            for ends in (self.range_mm, self.target_mm)
        )


def judged_state(slices: Any, head: Headline) -> Judged | None:
    """The judged state of an aeroplane, or None without a CG mark or without range and target."""
    table: AeroplaneTable = slices.aeroplane
    mark: Inputs3 | None = slices.cg_mark
    state_id = table.cg_range_state or table.cg_target_state
    if mark is None or state_id is None:
        return None
    row = head.row(state_id)
    offset = mark[0].value

    def ends(given: tuple[float, float] | None, state: str | None) -> tuple[float, float] | None:
        return (given[0] + offset, given[1] + offset) if given and state == state_id else None

    return Judged(
        state_id,
        row,
        float(head.mass_g[row]),
        float(head.cg_mm[row, 0]),
        offset,
        ends(table.cg_range_mm, table.cg_range_state),
        ends(table.cg_target_mm, table.cg_target_state),
    )
