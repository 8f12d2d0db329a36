"""The drawings there are, by name, and the one way to have one drawn."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.sheet_balance import balance_sheet
from hardstand.views.drawing.sheet_fit import fit_sheet
from hardstand.views.drawing.sheet_items import items_sheet
from hardstand.views.drawing.sheet_paper import fit_paper
from hardstand.views.drawing.sheet_paper_balance import balance_paper
from hardstand.views.drawing.sheet_paper_items import items_paper
from hardstand.views.drawing.sheet_paper_notes import notes_paper
from hardstand.views.drawing.sheet_paper_section import section_paper
from hardstand.views.drawing.sheet_paper_trays import tray_paper
from hardstand.views.drawing.sheet_section import section_sheet
from hardstand.views.drawing.sheet_trays import tray_sheet
from hardstand.views.drawing.standalone import Ink, svg_text
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.wanted import Wanted


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing as a list of them shows it: one line, and what makes its sheet."""

    line: str
    make: Callable[[AsBuilt, Assessment, Wanted], Sheet]


def sheet_fit(asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted) -> Sheet:
    """The whole aeroplane: plan and elevation with every item, CG, neutral point and findings."""
    if wanted.paper is not None:
        return fit_paper(asbuilt, assessment, wanted.paper, wanted)
    return fit_sheet(asbuilt, assessment, wanted)


def sheet_trays(asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted) -> Sheet:
    """The trays large, or one of them; raises KeyError where there is no such tray."""
    if not asbuilt.trays:
        raise KeyError("no tray is described")
    if wanted.paper is not None:
        return tray_paper(asbuilt, assessment, wanted.paper, wanted)
    return tray_sheet(asbuilt, assessment, wanted)


def sheet_balance(asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted) -> Sheet:
    """The CG of every state against its mass."""
    if wanted.paper is not None:
        return balance_paper(asbuilt, assessment, wanted.paper, wanted)
    return balance_sheet(asbuilt, assessment, wanted)


def sheet_section(asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted) -> Sheet:
    """A cross-section; raises ValueError without a station, or where nothing is described there."""
    if wanted.x_mm is None:
        raise ValueError("a section needs its station, x_mm")
    if wanted.paper is not None:
        return section_paper(asbuilt, assessment, wanted.x_mm, wanted.paper, wanted)
    return section_sheet(asbuilt, assessment, wanted.x_mm, wanted)


def sheet_notes(asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted) -> Sheet:
    """All findings as notes, for paper only: on a screen they stand whole beside each drawing."""
    if wanted.paper is None:
        raise ValueError("the notes have sheets of their own on paper only")
    return notes_paper(asbuilt, assessment, wanted.paper, wanted)


def sheet_items(asbuilt: AsBuilt, _: Assessment, wanted: Wanted) -> Sheet:
    """The list of all items by number; on paper `wanted.part` of several sheets."""
    if wanted.paper is not None:
        return items_paper(asbuilt, wanted.paper, wanted)
    return items_sheet(asbuilt, wanted)


DRAWINGS: Mapping[str, Drawing] = {
    "whole": Drawing("plan and elevation of the whole aeroplane with every item and finding", sheet_fit),
    "trays": Drawing("all trays, or one of them, large: items, plugs, openings, dimensions", sheet_trays),
    "balance": Drawing("the CG of every state against its mass, with range and target", sheet_balance),
    "section": Drawing("a cross-section at a station, looking aft", sheet_section),
    "items": Drawing("all items by the numbers that they have where a name has no room", sheet_items),
    "notes": Drawing("all findings in words, for paper", sheet_notes),
}


def draw(
    name: str,
    asbuilt: AsBuilt,
    assessment: Assessment,
    wanted: Wanted | None = None,
    *,
    prefix: str | None = None,
    alone: bool = True,
    ink: Ink | None = None,
) -> str:
    """A drawing as SVG text.

    prefix: begins every id, so that several drawings can stand in one page; the drawing's name unless
    given. alone: with style sheet and lettering inside; without, for a page that has them. ink: light or
    dark paper on screen; without, as whoever looks has set it.
    Raises KeyError for a name or tray that there is not, ValueError for a section of nothing.
    """
    if name not in DRAWINGS:
        raise KeyError(f"no drawing {name!r}; there are {', '.join(DRAWINGS)}")
    sheet = DRAWINGS[name].make(asbuilt, assessment, wanted or Wanted())
    return svg_text(sheet, prefix or name, alone=alone, ink=ink)
