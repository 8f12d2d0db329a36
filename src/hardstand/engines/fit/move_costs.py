"""What a move costs elsewhere: where the CG goes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from hardstand.asbuilt.value import MassPoint
from hardstand.engines.fit.model import Move

if TYPE_CHECKING:
    from hardstand.engines.balance.model import Headline

_SHOWN_MM = 0.05  # less than this is not shown in 0.1 mm


@dataclass(frozen=True, slots=True)
class Weights:
    """Masses of the items by id, in g, and of the whole aeroplane in the state of the CG range."""

    item_g: Mapping[str, float]
    whole_g: float | None

    def cg_words(self, move: Move) -> str:
        """Where the CG goes when an item is moved: its mass over the whole, times the way.

        >>> from hardstand.changes import Change
        >>> move = Move("pack", (-30.0, 0.0), Change("item.pack.at_mm", [], []), 1.0, None, True)
        >>> Weights({"pack": 150.0}, 15000.0).cg_words(move)
        'the CG moves 0.3 mm forward'
        >>> Weights({"pack": 15.0}, 15000.0).cg_words(move)
        'the CG stays within 0.1 mm'

        Source: closed form.
        """
        mass_g = self.item_g.get(move.item)
        if mass_g is None or not self.whole_g:
            return ""
        x, y = (mass_g / self.whole_g * by for by in move.by_mm)
        ways = []
        if abs(x) >= _SHOWN_MM:
            ways.append(f"{abs(x):.1f} mm {'aft' if x > 0 else 'forward'}")
        if abs(y) >= _SHOWN_MM:
            ways.append(f"{abs(y):.1f} mm to {'starboard' if y > 0 else 'port'}")
        return f"the CG moves {' and '.join(ways)}" if ways else "the CG stays within 0.1 mm"


def weights(masses: Iterable[MassPoint], head: Headline | None, state: str | None) -> Weights:
    """The weights that tell where the CG goes; without a computed CG there is nothing to tell."""
    item_g = {one.id: one.mass.value for one in masses if one.table == "item"}
    if head is None or not head.state_ids:
        return Weights(item_g, None)
    row = head.row(state) if state in head.state_ids else 0
    return Weights(item_g, float(head.mass_g[row]))
