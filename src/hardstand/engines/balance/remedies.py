"""A way out as the remedy of a finding."""

from __future__ import annotations

from hardstand.engines.balance.model import WayOut
from hardstand.findings import Remedy


def remedy_of(way: WayOut | None) -> Remedy | None:
    """A way out as a remedy with its effects in words."""
    if way is None:
        return None
    effects = []
    if abs(way.added_g) >= 0.5:
        effects.append(f"mass {'+' if way.added_g > 0 else '−'}{abs(way.added_g):.0f} g")
    if any(getattr(change, "address", "").endswith(".part") for change in way.changes):
        effects.append("the other pack's box, leads and charge are to be checked again")
    return Remedy(way.text[0].upper() + way.text[1:] + ".", way.changes, tuple(effects))
