"""What was written of a template: the files, how many sheets, and what is to be said of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, printable
from hardstand.views.table import Cell, Column, table
from hardstand.views.titles import title

_SAID = {
    "pdf": "the list of openings and {tiles} at 1:1 on {paper}",
    "dxf": "layers CUT, ENGRAVE, REFERENCE; 1 unit is 1 mm",
    "svg": "red is cut, blue engraved, grey only shown; in mm",
}
_PRINT = ("Print at 100 %, with no scaling, and measure both bars of every sheet before cutting: 100.0 mm "
          "each. Hold the template into the airframe first.")


def templated_page(form: Mapping[str, Any], measure: int) -> list[Line]:
    """The files of `hardstand template` in their JSON form."""
    size = " × ".join(f"{one:g}" for one in form["size_mm"])
    what = f"{size} mm, {form['thickness_mm']:g} mm thick"
    lines = title(f"Template: {printable(form['name'])}", what, measure)
    tiles = "1 sheet" if form["tiles"] == 1 else f"{form['tiles']} sheets"
    rows: list[tuple[Cell, ...]] = [
        ((printable(one["path"]), "strong"),
         _SAID[one["format"]].format(tiles=tiles, paper=form["paper"]))
        for one in form["files"]]  # fmt: skip
    lines += [BLANK, *table((Column(""), Column("", flowed=True, least=24)), rows, measure, head=False)]
    for one in form["remarks"]:
        lines += [BLANK, *flow(printable(one), measure)]
    if any(one["format"] == "pdf" for one in form["files"]):
        lines += [BLANK, *flow(_PRINT, measure, ink="quiet")]
    return lines
