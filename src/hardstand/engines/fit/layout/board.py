"""A problem made ready for search and proof: stances, collisions and pulls as numbers."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property

from hardstand.engines.fit.layout.chart import Chart, make_chart
from hardstand.engines.fit.layout.collisions import Ints, collisions
from hardstand.engines.fit.layout.problem import Layout, Problem, Spot
from hardstand.engines.fit.layout.pulls import Pull, pulls
from hardstand.engines.fit.layout.stances import Stance, carved, grounds, stances

# Where an item stands inside the search: number of its stance, and the corner's x and y in mm.
Standing = tuple[int, int, int]


@dataclass(frozen=True)
class Board:
    """The problem with everything that does not depend on where the items come to stand."""

    problem: Problem
    stances: tuple[tuple[Stance, ...], ...]
    pulls: tuple[Pull, ...]
    _collisions: dict[tuple[int, int, int, int], Ints] = field(default_factory=dict, repr=False)

    @cached_property
    def numbers(self) -> dict[str, int]:
        """Number of each item by its id."""
        return {item.id: i for i, item in enumerate(self.problem.items)}

    @cached_property
    def free_items(self) -> tuple[int, ...]:
        """Numbers of the items that may move."""
        return tuple(i for i, item in enumerate(self.problem.items) if item.fixed is None)

    @cached_property
    def pulls_of(self) -> tuple[tuple[Pull, ...], ...]:
        """The pulls on each item, turned so that `item` is that item."""
        found: list[list[Pull]] = [[] for _ in self.problem.items]
        for pull in self.pulls:
            found[pull.item].append(pull)
            if pull.other >= 0:
                found[pull.other].append(
                    Pull(pull.other, pull.other_port, pull.item, pull.port, pull.twice, pull.weight)
                )
        return tuple(tuple(row) for row in found)

    @cached_property
    def chart(self) -> Chart:
        """The board as arrays."""
        return make_chart(self.stances, self.pulls, self.colliding, self.problem.items)

    def colliding(self, i: int, a: int, j: int, b: int) -> Ints:
        """Displacements (j less i) that collide with i in stance a and j in stance b, same tray."""
        if i > j:  # one computed from the other, so that both tell the same in the same order
            return -self.colliding(j, b, i, a)[:, [1, 0, 3, 2]]
        key = (i, a, j, b)
        found = self._collisions.get(key)
        if found is None:
            found = collisions(
                self.stances[i][a].shape,
                self.stances[j][b].shape,
                self.problem.gap_mm,
                self.problem.plug_rooms_shared,
            )
            self._collisions[key] = found
        return found

    def layout(self, standings: list[Standing]) -> Layout:
        """Standings as spots."""
        spots = []
        for i, (a, x, y) in enumerate(standings):
            stance = self.stances[i][a]
            spots.append(Spot(self.problem.trays[stance.tray].id, stance.turn, x, y))
        return tuple(spots)

    def standings(self, layout: Layout) -> list[Standing]:
        """Spots as standings. Raises ValueError where an item may not stand like that."""
        found = []
        for i, spot in enumerate(layout):
            a = next(
                (
                    a
                    for a, stance in enumerate(self.stances[i])
                    if self.problem.trays[stance.tray].id == spot.tray
                    and stance.turn == spot.turn % 4
                ),
                None,
            )
            if a is None:
                raise ValueError(f"{self.problem.items[i].id} may not stand as {spot}")
            found.append((a, spot.x_mm, spot.y_mm))
        return found


def held_board(board_: Board, standings: list[Standing], free: set[int]) -> Board:
    """The board with all items fixed where they stand but those numbers in `free`."""
    layout = board_.layout(standings)
    items = tuple(
        item if i in free else replace(item, fixed=layout[i])
        for i, item in enumerate(board_.problem.items)
    )
    return board(replace(board_.problem, items=items))


def board(problem: Problem) -> Board:
    """Make a problem ready.

    Raises KeyError for an unknown item, port or tray in it.
    """
    reach = max((room.depth_mm for item in problem.items for room in item.plug_rooms), default=0)
    on = grounds(problem.trays, reach)
    found = [stances(problem, item, on) for item in problem.items]
    for i, item in enumerate(problem.items):
        if item.fixed is None:
            found[i] = tuple(
                left for one in found[i] if (left := _beside_fixed(problem, found, one)) is not None
            )
    return Board(problem, tuple(found), pulls(problem))


def _beside_fixed(
    problem: Problem, found: list[tuple[Stance, ...]], stance: Stance
) -> Stance | None:
    """A stance of a free item without the positions that collide with fixed items."""
    left: Stance | None = stance
    for j, other in enumerate(problem.items):
        if left is None:
            break
        if other.fixed is not None and found[j][0].tray == stance.tray:
            rooms = collisions(
                found[j][0].shape, stance.shape, problem.gap_mm, problem.plug_rooms_shared
            )
            left = carved(left, (other.fixed.x_mm, other.fixed.y_mm), rooms)
    return left
