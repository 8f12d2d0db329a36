"""The drawings as files in memory: for each medium its sheets, and for each paper one PDF."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Literal

if TYPE_CHECKING:
    from hardstand.asbuilt import AsBuilt
    from hardstand.assessment import Assessment
    from hardstand.views.drawing import Wanted

MEDIA = {"wide": "screen, 1440 px", "phone": "screen, 390 px", "a4": "A4, landscape",
         "letter": "Letter, landscape"}
_WIDTHS = {"wide": 1440.0, "phone": 390.0}
_PAPERS: Mapping[str, Literal["A4", "Letter"]] = {"a4": "A4", "letter": "Letter"}


@dataclass(frozen=True, slots=True)
class File:
    """One file: its path below the folder, medium, what it shows, how many sheets, its bytes."""

    path: str
    medium: str
    line: str
    sheets: int
    content: bytes

    def form(self) -> dict[str, Any]:
        """The file as plain data."""
        return {"path": self.path, "medium": self.medium, "shows": self.line, "sheets": self.sheets}


def files_of(
    asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted, names: Sequence[str],
    media: Sequence[str], ink: Any, tell: Callable[[str], None],
) -> list[File]:
    """Every file of the media wanted, in their order; raises KeyError and ValueError as `draw` does."""
    found: list[File] = []
    for medium in media:
        tell(f"drawing for {medium}")
        on = replace(wanted, paper=_PAPERS.get(medium), width_px=_WIDTHS.get(medium, 1440.0))
        found += _medium(medium, asbuilt, assessment, on, names, ink)
    return found


def _medium(
    medium: str, asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted, names: Sequence[str], ink: Any
) -> list[File]:
    from hardstand.views.drawing import draw, sheet_set

    sheets = sheet_set(asbuilt, assessment, wanted, names)
    paper = wanted.paper is not None
    found, pages = [], []
    for one in sheets:
        text = draw(one.name, asbuilt, assessment, one.wanted, prefix=one.stem, ink=None if paper else ink)
        found.append(File(f"{medium}/{one.stem}.svg", medium, one.line, 1, text.encode()))
        if paper:
            pages.append(text)
    if not paper or not pages:
        return found
    return [_pdf(medium, asbuilt.aeroplane.name, wanted, pages), *found]


def _pdf(medium: str, aeroplane: str, wanted: Wanted, pages: Sequence[str]) -> File:
    from hardstand.views.drawing.paper import PAPERS
    from hardstand.views.pdf import PaperPage, pdf

    assert wanted.paper is not None
    size = PAPERS[wanted.paper]
    day = wanted.issue.date
    date = dt.date.fromisoformat(day) if day else dt.datetime.now(dt.UTC).date()
    content = pdf([PaperPage(one, *size) for one in pages], title=f"{aeroplane}: drawings", date=date)
    many = "1 sheet" if len(pages) == 1 else f"all {len(pages)} sheets"
    return File(f"drawings-{medium}.pdf", medium, many, len(pages), content)
