"""The search for the smallest move of one item."""

from __future__ import annotations

from functools import cached_property
from typing import Any

import numpy as np

from hardstand.asbuilt.value import PlacedItem
from hardstand.changes import Change
from hardstand.engines.fit.bay_checks import homes
from hardstand.engines.fit.bay_shape import BayShape, bay_shapes
from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.model import Move
from hardstand.engines.fit.move_places import FARTHEST_MM, moves_of, on_tray, spare_in_bay
from hardstand.engines.fit.neighbourhood import Budget, Neighbourhood, between, neighbourhood
from hardstand.engines.fit.piece import Solids
from hardstand.engines.fit.stack import Bools


class MoveSearch:
    """One item, the moves it may make, and what it may come too near to; what is found is kept."""

    def __init__(self, item: PlacedItem, solids: Solids, slices: Any, budget: Budget) -> None:
        self._budget = budget
        self.item, self._solids, self._slices = item, solids, slices
        self._mine = [k for k, one in enumerate(solids.pieces) if one.owner.id == item.id]
        self._u_mm = float(solids.table.bound_u()[self._mine].max())

    def clearing(self, pair: frozenset[str]) -> Move | None:
        """The smallest move that clears all that is too near the item, else just this pair.

        None where neither is found within 40 mm, on the tray, in the bay and in the item's range.
        """
        if self._budget.left <= 0 or not len(self._ways):
            return None
        if self._all_clear is not None:
            return self._all_clear
        return self._found(between(self._near, pair), clears_all=False)

    @cached_property
    def _near(self) -> Neighbourhood:
        limits = self._slices.limits
        near = neighbourhood(self._solids, self.item.id, limits, FARTHEST_MM)
        self._budget.spend(len(near.own))
        return near

    @cached_property
    def _ways(self) -> Floats:
        """The moves (C, 3) that the description allows, the base on its tray, not hopeless in its bay."""
        ways = moves_of(self.item)
        if len(ways):
            # a move cannot gain more room within the skin than it is long
            short = -float(self._in_bay(np.zeros((1, 3)))[0])
            ways = ways[np.linalg.norm(ways, axis=1) >= short]
        tray = next((row for row in self._slices.trays if row.id == self.item.on), None)
        if tray is None or not len(ways):
            return ways
        edge = (self._slices.limits["fit.tray-edge"].low or 0.0) + 2.0 * self._u_mm
        return np.asarray(ways[on_tray(self._solids.frames[self.item.id], tray, ways, edge)])

    @cached_property
    def _all_clear(self) -> Move | None:
        return self._found(self._near.before_mm < 0.0, clears_all=True)

    @cached_property
    def _shape(self) -> BayShape | None:
        return homes(bay_shapes(self._slices.sections), np.array([self.item.centre_mm]))[0]

    def _in_bay(self, by_mm: Floats) -> Floats:
        """Spare (C,) of box and plugs within the bay's skin."""
        if self._shape is None:
            return np.full(len(by_mm), np.inf)
        skin = self._slices.limits["fit.structure-gap"].low or 0.0
        pieces = [self._solids.pieces[k] for k in self._mine]
        pieces = [piece for piece in pieces if piece.role in ("item", "zone")]
        u = float(np.hypot(self._u_mm, max(wall.u for wall in self._shape.walls)))
        return spare_in_bay(pieces, self._shape, by_mm, skin, u)

    def _fits(self, by_mm: Floats) -> Bools:
        return np.asarray(self._in_bay(by_mm) >= 0.0)

    def _found(self, cleared: Bools, *, clears_all: bool) -> Move | None:
        near = self._near
        first = near.first(self._ways, cleared, self._fits, self._budget)
        if first is None:
            return None
        by_mm = self._ways[first]
        x, y, z = self.item.centre_mm
        rest = [] if self.item.on is not None else [z]
        new = [round(x + float(by_mm[0]), 3), round(y + float(by_mm[1]), 3), *rest]
        rows = np.arange(len(near.own))
        spare = near.spare(rows, np.tile(by_mm, (len(rows), 1)))
        tightest = int(spare.argmin()) if len(rows) else -1
        owner = near.pieces[near.other[tightest]].owner if len(rows) else None
        return Move(
            self.item.id,
            (float(by_mm[0]), float(by_mm[1])),
            Change(f"item.{self.item.id}.at_mm", [x, y, *rest], new),
            float(spare[tightest]) if len(rows) else float("inf"),
            None if owner is None else self._solids.names[owner.id],
            clears_all,
        )
