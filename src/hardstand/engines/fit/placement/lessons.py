"""What a layout that failed the checks in three dimensions teaches the next try."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from hardstand.findings import Finding


@dataclass(frozen=True, slots=True)
class Lessons:
    """More to ask for: between all boxes, and of an item towards something that stays, by their ids."""

    gap_mm: int = 0
    grow_mm: Mapping[tuple[str, str], float] = field(default_factory=dict)


def learned(known: Lessons, clashes: Sequence[Finding], free: Sequence[str]) -> Lessons:
    """The lessons with what clashed added: what is missing to the limit, in whole millimetres.

    Two free items raise the gap between all; a free item and anything else grow apart.

    >>> clash = Finding("fit.box-gap", "no-go", ("hub", "pump"), "Touch.")
    >>> learned(Lessons(), [clash], ("hub", "pump")).gap_mm
    1
    >>> dict(learned(Lessons(), [clash], ("hub",)).grow_mm)
    {('hub', 'pump'): 1.0}
    """
    gap, grow = known.gap_mm, dict(known.grow_mm)
    for one in clashes:
        short = max(1, math.ceil(_short_mm(one)))
        movers = [row for row in one.about if row in free]
        if len(movers) > 1 and len(set(movers)) == len(set(one.about)):
            gap = max(gap, known.gap_mm + min(short, 10))
        for item in movers[:1]:
            for other in (row for row in one.about if row != item):
                grow[item, other] = known.grow_mm.get((item, other), 0.0) + short
    return replace(known, gap_mm=gap, grow_mm=grow)


def _short_mm(finding: Finding) -> float:
    figure, limit = finding.figure, finding.limit
    if figure is None or limit is None or limit.low is None:
        return 1.0
    return max(0.0, limit.low + 2.0 * figure.u - figure.value)
