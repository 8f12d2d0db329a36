"""All sheets of an aeroplane in one medium: which there are, in which order, under which names."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.description.places import Tray
from hardstand.views.drawing.catalogue import DRAWINGS
from hardstand.views.drawing.equipment import corners
from hardstand.views.drawing.planes import plane_letter
from hardstand.views.drawing.sheet_paper_items import item_pages
from hardstand.views.drawing.sheet_paper_notes import note_pages
from hardstand.views.drawing.tray_dimensions import length
from hardstand.views.drawing.wanted import Wanted

_PAPER_ONLY = ("items", "notes")  # on a screen they stand whole beside the drawing
_INSIDE = 0.2  # of an item's length: so far in from its faces a plane shows it
STRETCH_MM = 1060.0  # trays on one sheet: what a printed sheet shows at 1:5


@dataclass(frozen=True, slots=True)
class Planned:
    """A sheet to be drawn: the stem of its file's name, the drawing's name, what is wanted, its line."""

    stem: str
    name: str
    wanted: Wanted
    line: str


def sheet_set(
    asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted, names: Sequence[str] = ()
) -> list[Planned]:
    """The sheets of the drawings and trays named, or of all, each with its number of how many.

    `wanted` says the medium and the stations of sections; without any the tightest one is cut. Raises
    KeyError for what is neither a drawing nor a tray.
    """
    if not wanted.sections:
        tightest = tightest_station(asbuilt, assessment)
        wanted = replace(wanted, sections=() if tightest is None else (tightest,))
    trays = {tray.id: tray for tray in asbuilt.trays}
    unknown = [one for one in names if one not in DRAWINGS and one not in trays]
    if unknown:
        raise KeyError(unknown[0])
    chosen = list(dict.fromkeys(names or [one for one in (*DRAWINGS, *trays)
                                          if one not in _PAPER_ONLY or wanted.paper is not None]))  # fmt: skip
    found: list[Planned] = []
    for name in sorted(chosen, key=lambda one: (one not in DRAWINGS, chosen.index(one))):
        if name in DRAWINGS:
            found += _drawing(name, asbuilt, assessment, wanted)
        else:
            line = f"{trays[name].name or name}"
            found.append(Planned(f"tray-{name}", "trays", replace(wanted, tray=name), line))
    return [replace(one, wanted=replace(one.wanted, sheet=f"{k} of {len(found)}"))
            for k, one in enumerate(found, 1)]  # fmt: skip


def _drawing(name: str, asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted) -> list[Planned]:
    line = DRAWINGS[name].line
    if name == "section":
        return [Planned(f"section-{plane_letter(x, wanted.sections).lower()}", name, replace(wanted, x_mm=x),
                        f"cross-section at station {length(x)}, looking aft")
                for x in sorted(set(wanted.sections))]  # fmt: skip
    if name == "trays":
        parts = tray_stretches(asbuilt.trays)
        more = len(parts) > 1
        return [Planned(f"trays-{k}" if more else "trays", name,
                        replace(wanted, trays=tuple(one.id for one in part)), _stretch_line(part) if more else line)
                for k, part in enumerate(parts, 1)]  # fmt: skip
    if name == "items" and wanted.paper is not None:
        many = item_pages(asbuilt, wanted.paper)
        return [Planned(f"items-{k + 1}" if many > 1 else "items", name, replace(wanted, part=k), line)
                for k in range(many)]  # fmt: skip
    if name == "notes":
        many = note_pages(assessment) if wanted.paper is not None else 0
        return [Planned(f"notes-{k + 1}" if many > 1 else "notes", name, replace(wanted, part=k), line)
                for k in range(many)]  # fmt: skip
    return [Planned(name, name, wanted, line)]


def tray_stretches(trays: Sequence[Tray]) -> list[list[Tray]]:
    """Trays from the nose aft in stretches that are short enough to be drawn large."""
    found: list[list[Tray]] = []
    start = 0.0
    for tray in sorted(trays, key=_span):
        low, high = _span(tray)
        if not found or high - start > STRETCH_MM:
            found.append([])
            start = low
        found[-1].append(tray)
    return found


def _stretch_line(trays: Sequence[Tray]) -> str:
    low, high = min(_span(one)[0] for one in trays), max(_span(one)[1] for one in trays)
    return f"trays of stations {length(low)} to {length(high)}"


def _span(tray: Tray) -> tuple[float, float]:
    xs = [x for x, _ in tray.outline_mm]
    return min(xs), max(xs)


def tightest_station(asbuilt: AsBuilt, assessment: Assessment) -> float | None:
    """The station of the clearance with the least to spare; None where none was worked out.

    A face has nothing to cut: the plane goes a little into the nearer of the items concerned.
    """
    best: tuple[float, float, tuple[str, ...]] | None = None
    for name, result in assessment.results.items():
        for check in getattr(result, "checks", ()) if name.startswith("fit.") else ():
            if check.station_mm is None:
                continue
            figure, limit = result.figures.figure(check.address), asbuilt.limits[check.limit_id]
            if limit.low is None:
                continue
            spare = figure.value - limit.low
            if best is None or spare < best[0]:
                best = spare, check.station_mm, check.about
    return None if best is None else round(_into(asbuilt, best[1], best[2]), 1)


def _into(asbuilt: AsBuilt, x_mm: float, about: Sequence[str]) -> float:
    """The station nearest to `x_mm` that cuts one of the items well."""
    inside = []
    for item in asbuilt.items:
        if item.id in about:
            xs = corners(item)[:, 0]
            within = _INSIDE * float(np.ptp(xs))
            inside.append(float(np.clip(x_mm, xs.min() + within, xs.max() - within)))
    return min(inside, key=lambda one: abs(one - x_mm), default=x_mm)
