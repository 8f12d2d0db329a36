"""What the CG of a state is judged by: the range, the target, and how the state stands to them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hardstand.asbuilt.value import Inputs3
from hardstand.description.aeroplane import AeroplaneTable
from hardstand.engines.balance.model import Headline

Ends = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Judged:
    """A state whose CG is judged, mm from the datum: CG, mass, range and target (not both None).

    `goal_mm` is what ways out aim at: the middle of the target, else of the range.
    """

    state_id: str
    row: int
    mass_g: float
    cg_mm: float
    mark_mm: float
    range_mm: Ends | None
    target_mm: Ends | None

    @property
    def goal_mm(self) -> float:
        """Station aimed at: the middle of target or range."""
        ends = self.target_mm or self.range_mm or (self.cg_mm, self.cg_mm)
        return sum(ends) / 2.0

    @property
    def allowed_mm(self) -> Ends:
        """The range around the goal; where none is given, the target."""
        ends = self.range_mm or self.target_mm or (self.cg_mm, self.cg_mm)
        return min(ends[0], self.goal_mm), max(ends[1], self.goal_mm)

    @property
    def content(self) -> bool:
        """True where the CG's value lies inside both the range and the target."""
        return all(
            ends is None or ends[0] <= self.cg_mm <= ends[1]
            for ends in (self.range_mm, self.target_mm)
        )


def judged_states(slices: Any, head: Headline) -> tuple[Judged, ...]:
    """The judged states: that of the range, and that of the target where it is another one.

    Empty without a CG mark, without range and target, or where their states weigh nothing.
    """
    table: AeroplaneTable = slices.aeroplane
    mark: Inputs3 | None = slices.cg_mark
    given = (
        (table.cg_range_mm, table.cg_range_state),
        (table.cg_target_mm, table.cg_target_state),
    )
    named = [state for ends, state in given if ends and state and state in head.state_ids]
    if mark is None:
        return ()
    offset = mark[0].value

    def ends_in(state_id: str | None, which: int) -> Ends | None:
        ends, state = given[which]
        return (ends[0] + offset, ends[1] + offset) if ends and state == state_id else None

    return tuple(
        Judged(
            state_id,
            head.row(state_id),
            float(head.mass_g[head.row(state_id)]),
            float(head.cg_mm[head.row(state_id), 0]),
            offset,
            ends_in(state_id, 0),
            ends_in(state_id, 1),
        )
        for state_id in dict.fromkeys(named)
    )


def to_mend(judged: tuple[Judged, ...]) -> Judged | None:
    """The judged state that ways out are sought for: the first that is not content, else the first."""
    return next((one for one in judged if not one.content), judged[0] if judged else None)
