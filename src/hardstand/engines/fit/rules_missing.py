"""Findings on what is not described, and on what was taken in its place."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from hardstand.engines.fit.candidates import SPARE_MM
from hardstand.engines.fit.model import Clearances, Gap
from hardstand.engines.fit.piece import Solids
from hardstand.findings import Finding, judge


def missing_of(slices: Any) -> list[tuple[str, str]]:
    """(id of what is missing, the sentence) for every table that the fit needs and that is empty."""
    gaps = []
    if not slices.trays:
        text = (
            "No [[tray]] is described, so items are not held against what they stand on: add a row "
            "with outline_mm and top_z_mm for each, and say on which an item stands."
        )
        gaps.append(("tray", text))
    if not slices.sections:
        text = (
            "No [[section]] of a [[bay]] is described, so nothing says whether it all goes in: give "
            "the inside of the fuselage at two stations or more."
        )
        gaps.append(("bay", text))
    return gaps


def gap_findings(gaps: Iterable[Gap]) -> list[Finding]:
    """What could not be judged, each with what to add or measure."""
    return [Finding(f"fit.{one.slug}", "measure", one.about, one.text) for one in gaps]


def outside_findings(outside: tuple[str, ...]) -> list[Finding]:
    """One note on all items that lie in no bay."""
    if not outside:
        return []
    text = (
        f"No described bay is around {', '.join(outside)}: "
        f"{'they are' if len(outside) > 1 else 'it is'} held against no skin."
    )
    return [Finding("fit.outside-bays", "note", outside, text)]


def assumed_findings(slices: Any, earlier: Any) -> list[Finding]:
    """One finding for each item whose gaps to other typical boxes pass, but prove nothing."""
    solids: Solids = earlier["fit.solids"]
    gaps: Clearances = earlier["fit.clearances"]
    count: dict[str, int] = {}
    for k, check in enumerate(gaps.checks):
        owners = [solids.pieces[i].owner for i in (gaps.a[k], gaps.b[k])]
        limit = slices.limits[check.limit_id]
        passes = judge(float(gaps.distance_mm[k]), float(gaps.u_mm[k]), limit) == "inside"
        if passes and all(one.assumed for one in owners) and gaps.margin_mm[k] < SPARE_MM:
            for one in owners:
                count[one.id] = count.get(one.id, 0) + 1
    return [
        Finding(
            "fit.assumed-size",
            "measure",
            (item_id,),
            f"The size of {solids.names[item_id]} is only typical of its class, and "
            f"{'one gap' if number == 1 else f'{number} gaps'} to others like it "
            f"{'is' if number == 1 else 'are'} tight enough to matter: measure it and give size_mm.",
        )
        for item_id, number in sorted(count.items())
    ]


def assumption_findings(earlier: Any) -> list[Finding]:
    """A note where leads were taken as straight lines."""
    if not any(check.slug == "aerial-lead" for check in earlier["fit.aerials"].checks):
        return []
    text = (
        "Until routes are described, a lead is taken straight from port to port when it is held "
        "against an aerial; keep high-current leads away from aerials when they are laid."
    )
    return [Finding("fit.assumption", "note", ("lead",), text)]


def missing_findings(slices: Any) -> list[Finding]:
    """Empty tables as findings."""
    return [Finding("fit.missing", "measure", (name,), text) for name, text in missing_of(slices)]
