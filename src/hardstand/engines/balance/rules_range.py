"""Rule on a designer's range that the planform contradicts: a slipped digit, or another mark."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hardstand.description.aeroplane import AeroplaneTable
from hardstand.engines.balance.model import RangeMargins
from hardstand.findings import Finding
from hardstand.standards.units import show

# A static margin beyond this is not flown on purpose: common practice, no source.
FARTHEST_FORWARD_PCT = 35.0
SURE = 0.975


def range_findings(slices: Any, earlier: Any) -> Iterator[Finding]:
    """The static margin at the ends of the stated range; nothing without one or a neutral point."""
    ends: RangeMargins | None = earlier["balance.range"]
    if ends is None:
        return
    table: AeroplaneTable = slices.aeroplane
    unstable, nose_heavy = ends.aft_chance > 0.5, ends.forward_pct > FARTHEST_FORWARD_PCT
    if table.cg_range_mm is None or not (unstable or nose_heavy):
        return
    end = "aft" if unstable else "forward"
    figure = ends.figures.figure(f"balance.range-margin@{end}")
    says = (
        "would hardly be stable"
        if unstable
        else f"would be more nose-heavy than anything flown ({FARTHEST_FORWARD_PCT:g} % or more)"
    )
    mark = slices.cg_mark_name or "the mark"
    yield Finding(
        "balance.range-doubtful",
        "no-go" if ends.aft_chance > SURE else "caution",
        ("aeroplane",),
        f"With the CG at the {end} end of its stated range, {table.cg_range_mm[1 if unstable else 0]:g} mm "
        f"behind the mark ({mark}), the planform gives a static margin of "
        f"{show(figure.value, 'pct', figure.u)} of the mean chord: the aeroplane {says}. Look for a slipped "
        "digit, or for another mark in the manual: the leading edge on the centreline is not the one "
        "at the fuselage side.",
        figure,
        slices.limits["balance.static-margin"],
    )
