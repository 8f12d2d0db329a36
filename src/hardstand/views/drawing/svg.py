"""The SVG backend: a sheet of shapes as an element tree.

Ids begin with the drawing's prefix, so that several drawings can stand in one page. A screen sheet
has its size in pixels, a paper sheet in millimetres; the view box counts in the same unit.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from hardstand.views.drawing.boxes import text_box
from hardstand.views.drawing.hatching import beside, hatching
from hardstand.views.drawing.kinds import LETTERING, LINES, Medium
from hardstand.views.drawing.lettering import DESCENT
from hardstand.views.drawing.shapes import Circle, Group, Hatched, Path, Shape, Text

HATCH_STEP, HATCH_BAND, LIMIT_BAND = 5.0, 7.0, 13.0  # design pixels
NAMESPACE = "http://www.w3.org/2000/svg"
_HANGING = frozenset("gjpqyQ,;()[]_/|@")  # letters that reach below the line
_UNFIT = re.compile(r"[^A-Za-z0-9_-]+")
_CONTROL = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


@dataclass(frozen=True, slots=True)
class Sheet:
    """A drawing that is ready: its size in units of the medium, what it shows, its shapes.

    `fine` draws visible edges 0.35 mm wide on paper instead of 0.5, for views of a whole aeroplane.
    """

    width: float
    height: float
    medium: Medium
    title: str
    description: str
    shapes: tuple[Shape, ...]
    fine: bool = False


def number(value: float) -> str:
    """A coordinate with two decimals at most.

    >>> number(12.0), number(0.126), number(-0.001)
    ('12', '0.13', '0')
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def element(sheet: Sheet, prefix: str) -> ET.Element:
    """The sheet as an `<svg>` element. `prefix` begins every id and must be unlike in one page."""
    paper = sheet.medium.name == "paper"
    unit = "mm" if paper else ""
    root = ET.Element("svg", {
        "xmlns": NAMESPACE,
        "id": prefix,
        "class": "drawing" + " on-paper" * paper + " fine" * (paper and sheet.fine),
        "width": f"{number(sheet.width)}{unit}",
        "height": f"{number(sheet.height)}{unit}",
        "viewBox": f"0 0 {number(sheet.width)} {number(sheet.height)}",
        "role": "img",
        "aria-labelledby": f"{prefix}-title {prefix}-desc",
    })  # fmt: skip
    for tag, text in (("title", sheet.title), ("desc", sheet.description)):
        ET.SubElement(root, tag, {"id": f"{prefix}-{tag}"}).text = _printable(text)
    _Writer(prefix, sheet.medium).write(root, sheet.shapes)
    return root


class _Writer:
    """Writes shapes into an element, giving each group an id that no other group has."""

    def __init__(self, prefix: str, medium: Medium) -> None:
        self._prefix, self._medium = prefix, medium
        self._given: dict[str, int] = {}

    def write(self, parent: ET.Element, shapes: tuple[Shape, ...]) -> None:
        for one in shapes:
            if isinstance(one, Group):
                self._group(parent, one)
            elif isinstance(one, Path):
                self._path(parent, one)
            elif isinstance(one, Hatched):
                self._hatched(parent, one)
            elif isinstance(one, Circle):
                (x, y), radius = one.centre, one.radius
                ET.SubElement(parent, "circle", {"class": LINES[one.line], "cx": number(x),
                                                 "cy": number(y), "r": number(radius)})  # fmt: skip
            else:
                self._text(parent, one)

    def _path(self, parent: ET.Element, path: Path) -> None:
        ends = "Z" if path.closed else ""
        ways = "".join(
            "M" + "L".join(f"{number(x)} {number(y)}" for x, y in stroke) + ends
            for stroke in path.strokes
        )
        ET.SubElement(parent, "path", {"class": LINES[path.line], "d": ways})

    def _hatched(self, parent: ET.Element, ground: Hatched) -> None:
        step, band = HATCH_STEP * self._medium.unit, HATCH_BAND * self._medium.unit
        if ground.above:
            lines = beside(ground.outline, LIMIT_BAND * self._medium.unit, step)
        else:
            lines = hatching(ground.outline, step, band=band if ground.band else None,
                             rising=ground.rising)  # fmt: skip
        if lines is not None:
            self._path(parent, lines)

    def _group(self, parent: ET.Element, group: Group) -> None:
        stem = _UNFIT.sub("-", f"{self._prefix}-{group.part}-{group.about}").strip("-")
        count = self._given[stem] = self._given.get(stem, 0) + 1
        given = {"id": stem if count == 1 else f"{stem}-{count}", "data-part": group.part}
        if group.about:
            given["data-about"] = group.about
        given |= {f"data-{name}": value for name, value in group.data}
        if group.title:
            given |= {"role": "group", "aria-label": _printable(group.title)}
        made = ET.SubElement(parent, "g", given)
        if group.title:
            ET.SubElement(made, "title").text = _printable(group.title)
        self.write(made, group.shapes)

    def _ground(self, parent: ET.Element, text: Text) -> None:
        """Paper behind a text. A halo will not do in print, where each letter's would cut the one before."""
        left, top, right, bottom = text_box(text, self._medium)
        if not _HANGING.intersection(text.text):
            hangs = DESCENT * self._medium.height(text.use)
            right, bottom = (right - hangs, bottom) if text.upright else (right, bottom - hangs)
        air = 0.6 * self._medium.unit  # a figure rides so close above its dimension line
        ET.SubElement(parent, "rect", {"class": LINES["paper"], "x": number(left - air), "y": number(top - air),
                                       "width": number(right - left + 2.0 * air),
                                       "height": number(bottom - top + 2.0 * air)})  # fmt: skip

    def _text(self, parent: ET.Element, text: Text) -> None:
        x, y = text.at
        style = LETTERING[text.use].css
        anchor = {"start": "", "middle": " mid", "end": " end"}[text.anchor]
        paper = self._medium.name == "paper"
        if paper and text.halo:
            self._ground(parent, text)
        halo, quiet = " halo" if text.halo and not paper else "", " quiet" if text.quiet else ""
        given = {"class": f"{style}{anchor}{halo}{quiet}",
                 "style": f"font-size:{number(self._medium.height(text.use))}px"}  # fmt: skip
        if text.upright:
            given["transform"] = f"translate({number(x)} {number(y)}) rotate(-90)"
        else:
            given |= {"x": number(x), "y": number(y)}
        ET.SubElement(parent, "text", given).text = _printable(text.text)


def _printable(text: str) -> str:
    """Without the characters that XML cannot hold."""
    return _CONTROL.sub(" ", text)
