"""Findings on what is not described: what cannot be answered without it, and what to add."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hardstand.engines.balance.model import Headline, OnWheels, Stability
from hardstand.engines.balance.on_wheels import three_legs
from hardstand.findings import Finding
from hardstand.standards.units import show

TEXTS = {
    "state": "No loading state is described: add [[state]] rows, so that there is something to balance.",
    "cg_mark": "There is no [cg_mark]: without a point that can be touched, no CG can be judged.",
    "cg_range": "The designer's CG range is not stated: the CG is computed but not judged by it. "
    "Add cg_range_mm and cg_range_state to [aeroplane].",
    "wing": "No [[panel]] of the wing is described: no mean chord, neutral point or static margin.",
    "tail": "No [[panel]] of a tail or canard is described: no neutral point or static margin. If it has "
    "neither, put tailless = true into [stability].",
    "leg": "The nose leg and the two main legs are not described as three [[leg]] rows: no wheel loads, "
    "no tipping angles.",
}


def missing_of(slices: Any) -> list[str]:
    """The names in `TEXTS` of what is not described."""
    surfaces = {panel.surface for panel in slices.panels}
    tailless = slices.stability is not None and slices.stability.tailless
    gaps = {
        "state": not slices.states,
        "cg_mark": slices.cg_mark is None,
        "cg_range": slices.aeroplane.cg_range_mm is None,
        "wing": "wing" not in surfaces,
        "tail": "wing" in surfaces and not surfaces & {"tail", "canard"} and not tailless,
        "leg": three_legs(slices.legs) is None,
    }
    return [name for name, gap in gaps.items() if gap]


def missing_findings(slices: Any, earlier: Any) -> Iterator[Finding]:
    """Gaps and what could not be worked out as findings, the defaults that were used as notes."""
    for name in missing_of(slices):
        yield Finding("balance.missing", "measure", (name,), TEXTS[name])
    yield from _not_worked_out(slices, earlier)
    stability: Stability | None = earlier["balance.stability"]
    for text in stability.assumptions if stability is not None else ():
        words = f"{text[0].upper()}{text[1:]}."
        yield Finding("balance.assumption", "note", ("aeroplane",), words)
    shrunk = earlier["fuel.levels"].shrunk
    if shrunk:
        yield Finding(
            "balance.tank-inside",
            "note",
            shrunk,
            f"The inside of {', '.join(shrunk)} is not stated: the outside was shrunk until it holds the "
            "capacity. Give inside_mm where the CG of the fuel matters.",
        )


def _not_worked_out(slices: Any, earlier: Any) -> Iterator[Finding]:
    head: Headline | None = earlier["balance.headline"]
    stability: Stability | None = earlier["balance.stability"]
    stance: OnWheels | None = earlier["balance.wheels"]
    known = head.state_ids if head is not None else ()
    empty = tuple(state.id for state in slices.states if state.id not in known)
    if empty:
        text = (
            f"In state {', '.join(empty)} nothing that weighs anything is on board: it has no CG."
        )
        yield Finding("balance.missing", "measure", empty, text)
    if stability is None and any(panel.surface == "wing" for panel in slices.panels):
        text = "The panels of the wing enclose no area that a mean chord could be worked out from."
        yield Finding("balance.missing", "measure", ("wing",), text)
    if stability is not None and stability.problem:
        words = f"{stability.problem[0].upper()}{stability.problem[1:]}."
        yield Finding("balance.missing", "measure", ("tail",), words)
    if stance is not None and stance.problem:
        words = f"{stance.problem[0].upper()}{stance.problem[1:]}."
        yield Finding("balance.missing", "measure", ("leg",), words)
    yield from _heavy_legs(slices)


def _heavy_legs(slices: Any) -> Iterator[Finding]:
    """Legs of which more swings than they weigh, all legs of one item together."""
    mass = {point.id: point.mass.value for point in slices.masses if point.table == "item"}
    swings: dict[str, float] = {}
    for leg in slices.legs:
        swings[leg.leg.item] = swings.get(leg.leg.item, 0.0) + leg.moving.value
    for item, moving_g in swings.items():
        if moving_g > mass.get(item, 0.0):
            yield Finding(
                "balance.missing",
                "measure",
                (item,),
                f"{show(moving_g, 'g')} of {item} swings with the gear, but it weighs only "
                f"{show(mass.get(item, 0.0), 'g')}: see moving_g and mass_g.",
            )
