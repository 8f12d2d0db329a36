"""Findings on what is not described: what cannot be answered without it, and what to add."""

from __future__ import annotations

from typing import Any

from hardstand.engines.balance.model import Stability
from hardstand.findings import Finding


def missing_of(slices: Any) -> list[tuple[str, str]]:
    """(id of what is missing, the sentence) for every gap in what the balance needs."""
    gaps = []
    if not slices.states:
        gaps.append(
            (
                "state",
                "No loading state is described: add [[state]] rows, so that there is something to balance.",
            )
        )
    if slices.cg_mark is None:
        gaps.append(
            (
                "cg_mark",
                "There is no [cg_mark]: without a point that can be touched, no CG can be judged.",
            )
        )
    if slices.aeroplane.cg_range_mm is None:
        gaps.append(
            (
                "cg_range",
                "The designer's CG range is not stated: the CG is computed but not judged by it.",
            )
        )
    if not any(panel.surface == "wing" for panel in slices.panels):
        gaps.append(
            (
                "wing",
                "No [[panel]] of the wing is described: no MAC, neutral point or static margin.",
            )
        )
    elif not any(panel.surface in ("tail", "canard") for panel in slices.panels):
        gaps.append(
            ("tail", "No [[panel]] of a tail is described: no neutral point or static margin.")
        )
    if len(slices.legs) != 3:
        gaps.append(
            (
                "leg",
                "The three [[leg]] rows are not described: no wheel loads, no swing of the gear's mass.",
            )
        )
    return gaps


def missing_findings(slices: Any, earlier: Any) -> list[Finding]:
    """Gaps as findings, the defaults that were used as notes."""
    found = [
        Finding("balance.missing", "measure", (name,), text) for name, text in missing_of(slices)
    ]
    stability: Stability | None = earlier["balance.stability"]
    if stability is not None:
        found += [
            Finding("balance.assumption", "note", ("aeroplane",), f"{text[0].upper()}{text[1:]}.")
            for text in stability.assumptions
        ]
    shrunk = earlier["fuel.levels"].shrunk
    if shrunk:
        found.append(
            Finding(
                "balance.tank-inside",
                "note",
                shrunk,
                f"The inside of {', '.join(shrunk)} is not stated: the outside was shrunk until it holds the "
                "capacity. Give inside_mm where the CG of the fuel matters.",
            )
        )
    return found
