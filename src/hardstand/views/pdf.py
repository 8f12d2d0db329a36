"""A PDF of pages that are drawn as SVG in millimetres, true to size and the same to the byte.

Assumes nothing about what is drawn. The lettering is the project's own: no font of the computer that
runs this is used, and a text in a family that is not ours is refused, not replaced in silence. Only
a letter that the lettering lacks (of another script) comes from the typesetter's own book face.
"""

from __future__ import annotations

import datetime as dt
import re
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.resources import as_file, files
from pathlib import Path
from xml.etree import ElementTree as ET

from hardstand.views.print_style import NARROW_IN_PRINT, print_style

FAMILIES = frozenset({"Lettering", NARROW_IN_PRINT, "Notes"})
_NAMESPACE = "http://www.w3.org/2000/svg"
_FAMILY = re.compile(r"font-family\s*:\s*([^;}\"<]*(?:\"[^\"]*\"[^;}\"<]*)*)")
_SIZE = re.compile(r"^([0-9]+(?:\.[0-9]+)?)mm$")
_TEXT_SIGNS = str.maketrans({"\\": "\\\\", '"': '\\"', "\n": " ", "\r": " ", "\t": " "})
_TOLERANCE_MM = 0.006  # coordinates of a drawing have two decimals


class PageError(ValueError):
    """A page that could not be printed as it was meant."""


@dataclass(frozen=True, slots=True)
class PaperPage:
    """One page: an SVG document whose width and height are in mm and whose view box counts in mm.

    A drawing with the classes of the look (`views.drawing.svg.element`) gets its style from here; it
    need not hold one.
    """

    svg: str
    width_mm: float
    height_mm: float


def pdf(pages: Sequence[PaperPage], *, title: str, date: dt.date) -> bytes:
    """The pages as one PDF at their true size, with text that can be searched and copied.

    Assumptions and validity: one user unit of each SVG is 1 mm; nothing is scaled. `date` is the only
    time in the file, so that the same pages give the same bytes.

    Parameters: pages, in order, at least one; title, for the document's properties; date.
    Returns the file's bytes. Raises PageError for a page whose size is not what it says, or whose
    text asks for a family that is not ours.

    >>> page = PaperPage('<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" '
    ...                  'viewBox="0 0 100 50"><path d="M0 25H100" stroke="#000"/></svg>', 100, 50)
    >>> pdf([page], title="A line", date=dt.date(2026, 1, 31))[:5]
    b'%PDF-'

    Source: ISO 32000-1:2008, 8.3.2.3: a unit of a page is 1/72 inch.
    """
    import typst

    if not pages:
        raise PageError("a PDF needs a page")
    texts = [_checked(page) for page in pages]
    noon = dt.datetime(date.year, date.month, date.day, 12, tzinfo=dt.UTC)
    fonts = files("hardstand") / "data" / "look" / "fonts" / "print"
    with tempfile.TemporaryDirectory() as folder, as_file(fonts) as print_fonts:
        root = Path(folder)
        for number, text in enumerate(texts):
            (root / f"{number}.svg").write_text(text, encoding="utf-8")
        (root / "main.typ").write_text(_source(pages, title, date), encoding="utf-8")
        made, warnings = typst.compile_with_warnings(
            str(root / "main.typ"), root=folder, font_paths=[str(print_fonts)],
            ignore_system_fonts=True, format="pdf", timestamp=noon)
    if warnings:
        raise PageError("; ".join(str(one) for one in warnings))
    assert isinstance(made, bytes)  # one document, not one a page
    return made


def _source(pages: Sequence[PaperPage], title: str, date: dt.date) -> str:
    """The document that places every page's SVG at the corner of a page of its size."""
    day = f"datetime(year: {date.year}, month: {date.month}, day: {date.day})"
    lines = [f'#set document(title: "{title.translate(_TEXT_SIGNS)}", date: {day})']
    for number, page in enumerate(pages):
        size = f"width: {page.width_mm}mm, height: {page.height_mm}mm"
        picture = f'#place(top + left, image("{number}.svg", {size}, fit: "stretch"))'
        lines.append(f"#page({size}, margin: 0mm)[{picture}]")
    return "\n".join(lines) + "\n"


def _checked(page: PaperPage) -> str:
    """A page's SVG with its style; raises PageError where size or lettering are not as they must be."""
    ET.register_namespace("", _NAMESPACE)
    try:
        root = ET.fromstring(page.svg)  # noqa: S314 it is our own drawing
    except ET.ParseError as error:
        raise PageError(f"a page is no SVG: {error}") from None
    wanted = (page.width_mm, page.height_mm)
    given = [_SIZE.match(root.get(name, "")) for name in ("width", "height")]
    box = [float(one) for one in root.get("viewBox", "").split()]
    sizes = [float(one[1]) for one in given if one]
    if len(sizes) != 2 or len(box) != 4 or any(
        abs(a - b) > _TOLERANCE_MM
        for a, b in zip((*sizes, *box), (*wanted, 0.0, 0.0, *wanted), strict=True)
    ):
        raise PageError(f"a page of {wanted[0]} × {wanted[1]} mm has an SVG of another size or unit")
    classes = root.get("class", "").split()
    if "on-paper" in classes:
        for old in root.findall(f"{{{_NAMESPACE}}}style"):
            root.remove(old)
        style = ET.Element(f"{{{_NAMESPACE}}}style")
        style.text = print_style(fine="fine" in classes)
        root.insert(0, style)
    _families_are_ours(root)
    return ET.tostring(root, encoding="unicode")


def _families_are_ours(root: ET.Element) -> None:
    asked: set[str] = set()
    for one in root.iter():
        asked.add(one.get("font-family", ""))
        texts = [one.get("style", "")]
        if one.tag.endswith("style"):
            texts.append(one.text or "")
        for text in texts:
            asked |= {name for found in _FAMILY.findall(text) for name in found.split(",")[:1]}
    strange = {one.strip(" \"'") for one in asked} - FAMILIES - {""}
    if strange:
        raise PageError(f"no such lettering: {', '.join(sorted(strange))}")
