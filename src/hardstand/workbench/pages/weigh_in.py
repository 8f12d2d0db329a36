"""The page at the scales: a field for each leg, and what has been weighed so far."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hardstand.views.balance_form import balance_form
from hardstand.workbench.actions.weighing import READING
from hardstand.workbench.asked import Asked, Common, common


@dataclass(frozen=True)
class WeighInPage:
    """Legs and states to choose from, what was typed where it was refused, earlier weigh-ins."""

    common: Common
    legs: Sequence[str]
    states: Sequence[tuple[str, str]]
    state: str
    typed: Mapping[str, str]
    weighed: Sequence[Mapping[str, Any]]
    reading: str = READING


def weigh_in(asked: Asked) -> WeighInPage:
    """What the page at the scales shows."""
    held = asked.held
    states = [(one.id, one.name or one.id) for one in held.asbuilt.states]
    judged = held.asbuilt.aeroplane.cg_range_state or (states[0][0] if states else "")
    refused = asked.outcome is not None and not asked.outcome.made
    return WeighInPage(
        common(asked, "balance", "Weigh-in", "the aeroplane on its scales"),
        [one.id for one in held.asbuilt.legs], states, asked.typed.get("state", judged),
        asked.typed if refused else {}, balance_form(held.assessment, held.asbuilt)["weigh_ins"],
    )  # fmt: skip
