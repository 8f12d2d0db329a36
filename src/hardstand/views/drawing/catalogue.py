"""The drawings there are, by name, and the one way to have one drawn."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.paper import Paper
from hardstand.views.drawing.sheet_balance import balance_sheet
from hardstand.views.drawing.sheet_fit import fit_sheet
from hardstand.views.drawing.sheet_paper import fit_paper
from hardstand.views.drawing.sheet_paper_balance import balance_paper
from hardstand.views.drawing.sheet_paper_trays import tray_paper
from hardstand.views.drawing.sheet_section import section_sheet
from hardstand.views.drawing.sheet_trays import tray_sheet
from hardstand.views.drawing.standalone import svg_text
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.title_block import NO_ISSUE, Issue


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a drawing is wanted for: a screen of some width in px, or a paper.

    `tray` is the id of one tray, `x_mm` the station of a section, `selected` ids that are marked.
    """

    width_px: float = 1440.0
    paper: Paper | None = None
    tray: str | None = None
    x_mm: float | None = None
    selected: Sequence[str] = ()
    issue: Issue = NO_ISSUE


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing as a list of them shows it: one line, and what makes its sheet."""

    line: str
    make: Callable[[AsBuilt, Assessment, Wanted], Sheet]


def sheet_fit(asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted) -> Sheet:
    """The whole aeroplane: plan and elevation with every item, CG, neutral point and findings."""
    if wanted.paper is not None:
        return fit_paper(asbuilt, assessment, wanted.paper, wanted.selected, wanted.issue)
    return fit_sheet(asbuilt, assessment, wanted.width_px, wanted.selected, wanted.issue)


def sheet_trays(asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted) -> Sheet:
    """The trays large, or one of them; raises KeyError where there is no such tray."""
    if not asbuilt.trays:
        raise KeyError("no tray is described")
    if wanted.paper is not None:
        return tray_paper(asbuilt, assessment, wanted.tray, wanted.paper, wanted.selected, wanted.issue)
    return tray_sheet(asbuilt, assessment, wanted.tray, wanted.width_px, wanted.selected, wanted.issue)


def sheet_balance(asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted) -> Sheet:
    """The CG of every state against its mass."""
    if wanted.paper is not None:
        return balance_paper(asbuilt, assessment, wanted.paper, wanted.selected, wanted.issue)
    return balance_sheet(asbuilt, assessment, wanted.width_px, wanted.selected, wanted.issue)


def sheet_section(asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted) -> Sheet:
    """A cross-section; raises ValueError without a station, or where nothing is described there."""
    if wanted.x_mm is None:
        raise ValueError("a section needs its station, x_mm")
    if wanted.paper is not None:
        raise ValueError("a section is drawn for the screen only: leave the paper out")
    return section_sheet(asbuilt, assessment, wanted.x_mm, wanted.width_px, wanted.selected, wanted.issue)


DRAWINGS: Mapping[str, Drawing] = {
    "whole": Drawing("plan and elevation of the whole aeroplane with every item and finding", sheet_fit),
    "trays": Drawing("all trays, or one of them, large: items, plugs, openings, dimensions", sheet_trays),
    "balance": Drawing("the CG of every state against its mass, with range and target", sheet_balance),
    "section": Drawing("a cross-section at a station, looking aft", sheet_section),
}


def draw(
    name: str,
    asbuilt: AsBuilt,
    assessment: Assessment,
    wanted: Wanted | None = None,
    *,
    prefix: str | None = None,
    alone: bool = True,
) -> str:
    """A drawing as SVG text.

    prefix: begins every id, so that several drawings can stand in one page; the drawing's name unless
    given. alone: with style sheet and lettering inside; without, for a page that has them.
    Raises KeyError for a name or tray that there is not, ValueError for a section of nothing.
    """
    if name not in DRAWINGS:
        raise KeyError(f"no drawing {name!r}; there are {', '.join(DRAWINGS)}")
    sheet = DRAWINGS[name].make(asbuilt, assessment, wanted or Wanted())
    return svg_text(sheet, prefix or name, alone=alone)
