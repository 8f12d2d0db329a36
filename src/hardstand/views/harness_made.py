"""What `hardstand harness` wrote, and what there is to buy."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, line, printable
from hardstand.views.table import Cell, Column, table
from hardstand.views.titles import title

_SAID = {
    "labels": "labels for both ends of {leads} leads; print at 100 %",
    "cut-list": "what to cut, or which extension lead to buy",
    "bill": "wire, plugs and adapters, summed",
    "drawing": "who is joined to whom, the whole with {crossings} crossings, then each tray",
}
_STRING = ("Lay a string along the way before you cut: a computed way is known to 15 mm and 5 %, in a wing to "
           "15 %. No pack is plugged in while a pin is open.")


def made_page(form: Mapping[str, Any], measure: int) -> list[Line]:
    """The files of `hardstand harness` in their JSON form, and the bill."""
    lines = title("Harness", f"{len(form['leads'])} leads", measure)
    rows: list[tuple[Cell, ...]] = [
        ((printable(one["path"]), "strong"),
         _SAID[one["what"]].format(leads=len(form["leads"]), crossings=form["crossings"]))
        for one in form["files"]]  # fmt: skip
    lines += [BLANK, *table((Column(""), Column("", flowed=True, least=24)), rows, measure, head=False)]
    bill: list[tuple[Cell, ...]] = [(one["what"], f"{one['amount']:.1f} m" if one["unit"] == "m" else
                                     f"{one['amount']:.0f}") for one in form["bill"]]  # fmt: skip
    lines += [BLANK, line(("Bill of material", "quiet")),
              *table((Column("what", flowed=True, least=24), Column("amount", "right")), bill, measure)]
    for one in form["adapters"]:
        said = f"{one['lead']} needs an adapter at {one['end']}: {one['plug']} to {one['port']}."
        lines += [BLANK, *flow(printable(said), measure)]
    return [*lines, BLANK, *flow(_STRING, measure, ink="quiet")]
