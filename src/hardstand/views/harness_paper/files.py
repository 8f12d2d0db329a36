"""The files of the harness on paper: each a PDF."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.engines.harness.model import Makings, Netlist
from hardstand.views.drawing.paper import Paper
from hardstand.views.drawing.standalone import svg_text
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.title_block import Issue
from hardstand.views.harness_paper.drawing import schematic_sheets, schematics
from hardstand.views.harness_paper.labels import label_sheets
from hardstand.views.harness_paper.lists import bill_sheets, cut_sheets
from hardstand.views.pdf import PaperPage, pdf

WHAT = ("labels", "cut-list", "bill", "drawing")


def harness_files(asbuilt: AsBuilt, assessment: Assessment, what: Sequence[str], paper: Paper, issue: Issue,
                  date: dt.date) -> tuple[list[tuple[str, bytes]], int]:  # fmt: skip
    """Some of `WHAT` as PDFs, by name; and how many crossings the drawing of the whole has."""
    sheets, crossings = harness_sheets(asbuilt, assessment, what, paper, issue)
    name = asbuilt.aeroplane.name
    return [(one, pdf([PaperPage(svg_text(page, f"{one}-{k}", alone=False), page.width, page.height)
                       for k, page in enumerate(pages, 1)], title=f"{name}: {one.replace('-', ' ')}", date=date))
            for one, pages in sheets if pages], crossings  # fmt: skip


def harness_sheets(asbuilt: AsBuilt, assessment: Assessment, what: Sequence[str], paper: Paper,
                   issue: Issue) -> tuple[list[tuple[str, list[Sheet]]], int]:  # fmt: skip
    """The sheets of each of what is wanted, and the crossings of the whole."""
    made: Makings = assessment.results["harness.making"]
    net: Netlist = assessment.results["harness.netlist"]
    laid = schematics(asbuilt, net)
    name = asbuilt.aeroplane.name
    make = {
        "labels": lambda: label_sheets(made.leads, name, paper),
        "cut-list": lambda: cut_sheets(made, name, paper, issue),
        "bill": lambda: bill_sheets(made, name, paper, issue),
        "drawing": lambda: schematic_sheets(asbuilt, laid, paper, issue),
    }
    return [(one, make[one]()) for one in WHAT if one in what], laid[0][1].crossings if laid else 0
