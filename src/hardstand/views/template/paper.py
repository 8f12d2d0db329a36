"""A template as a PDF: its sheets in the order in which they are printed."""

from __future__ import annotations

import datetime as dt

from hardstand.views.drawing.paper import Paper
from hardstand.views.drawing.standalone import svg_text
from hardstand.views.drawing.title_block import NO_ISSUE, Issue
from hardstand.views.pdf import PaperPage, pdf
from hardstand.views.template.pages import pages
from hardstand.views.template.value import Template


def template_pdf(made: Template, paper: Paper, date: dt.date, issue: Issue = NO_ISSUE) -> bytes:
    """The template as a PDF at its true size; `date` is the only time in it."""
    sheets = pages(made, paper, issue)
    drawn = [PaperPage(svg_text(one, f"sheet-{number}", alone=False), one.width, one.height)
             for number, one in enumerate(sheets, 1)]  # fmt: skip
    return pdf(drawn, title=f"{made.aeroplane}: template of {made.name}", date=date)
