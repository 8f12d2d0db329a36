"""What was drawn: the sheets, and in which folders and books they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, printable
from hardstand.views.table import Cell, Column, table
from hardstand.views.titles import title

_SAID = {"wide": "for a wide screen", "phone": "for a phone", "a4": "for A4, landscape",
         "letter": "for Letter, landscape"}


def drawn_page(form: Mapping[str, Any], measure: int) -> list[Line]:
    """The files of `hardstand draw` in their JSON form."""
    files = form["files"]
    count = "1 file" if len(files) == 1 else f"{len(files)} files"
    lines = title("Drawings", f"{count} in {printable(form['folder'])}", measure)
    sheets = {_stem(one): one["shows"] for one in files if one["path"].endswith(".svg")}
    lines += _rows([(f"{printable(stem)}.svg", shows) for stem, shows in sheets.items()], measure)
    lines.append(BLANK)
    media = {one["medium"]: None for one in files}
    folders = [(f"{one}/", f"the sheets {_SAID[one]}") for one in media]
    books = [one for one in files if one["path"].endswith(".pdf")]
    lines += _rows([*folders, *((one["path"], f"{one['shows']} to print") for one in books)], measure)
    if books:
        said = ("Print the PDF at its own size, not fitted to the page, and hold a ruler to the scale "
                "bar. The lengths in the drawings are in mm.")
        lines += [BLANK, *flow(said, measure, ink="quiet")]
    return lines


def _stem(file: Mapping[str, Any]) -> str:
    return str(file["path"]).rpartition("/")[2].removesuffix(".svg")


def _rows(rows: Sequence[tuple[str, str]], measure: int) -> list[Line]:
    cells: list[tuple[Cell, ...]] = [((name, "strong"), said) for name, said in rows]
    return table((Column(""), Column("", flowed=True, least=24)), cells, measure, head=False)
