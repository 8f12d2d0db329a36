"""The title block with the fields of ISO 7200: what the sheet shows, of what, by whom, as of when."""

from __future__ import annotations

from dataclasses import dataclass

from hardstand.views.drawing.boxes import Box
from hardstand.views.drawing.kinds import PAPER, SCREEN, Medium, Use
from hardstand.views.drawing.lettering import shortened, width
from hardstand.views.drawing.shapes import Circle, Shape, Text, area, line, rectangle

SCREEN_HEIGHT = 58.0
PAPER_SIZE_MM = (124.0, 34.0)
SENTENCE = "hardstand. Never states that an aircraft is safe."


@dataclass(frozen=True, slots=True)
class Issue:
    """What a drawing was made from, when and by whom; what is empty is left to be filled in by hand.

    `layout` names the options laid over the description; `revision` is that of its files.
    """

    layout: str = "as described"
    revision: str = ""
    date: str = ""
    responsible: str = ""
    checked: str = ""


NO_ISSUE = Issue()


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """The fields of one sheet."""

    aeroplane: str
    title: str
    subtitle: str
    scale: str
    sheet: str
    issue: Issue
    first_angle: bool = False


def screen_title_block(block: TitleBlock, at: Box) -> tuple[Shape, ...]:
    """The title block along the foot of a screen sheet."""
    left, top, right, bottom = at
    shares = (0.0, 0.26, 0.56, 0.74, 0.86, 1.0)
    cells = (
        ("Aeroplane", block.aeroplane, ""),
        (f"Sheet {block.sheet}", block.title, block.subtitle),
        ("Layout", block.issue.layout, ""),
        ("Scale", block.scale, ""),
        ("Description, record", block.issue.revision or "–", block.issue.date),
    )
    shapes: list[Shape] = [line("cut", (left, top), (right, top))]
    for number, (key, value, under) in enumerate(cells):
        x = left + shares[number] * (right - left)
        room = (shares[number + 1] - shares[number]) * (right - left) - 20.0
        if number:
            shapes.append(line("thin", (x, top), (x, bottom)))
        shapes += _cell(x + 10.0, top, key, value, under, room, SCREEN)
    return tuple(shapes)


def _cell(x: float, top: float, key: str, value: str, under: str, room: float, medium: Medium) -> list[Shape]:
    texts: list[tuple[Use, float, str]] = [("key", 15.0, key), ("value", 35.0, value), ("micro", 50.0, under)]
    return [
        Text(use, (x, top + down * medium.unit), shortened(text, use, medium, room), halo=False)
        for use, down, text in texts if text
    ]  # fmt: skip


def paper_title_block(block: TitleBlock, right_mm: float, bottom_mm: float) -> tuple[Shape, ...]:
    """The title block in the lower right corner of a printed sheet, 124 × 34 mm."""
    wide, high = PAPER_SIZE_MM
    left, top = right_mm - wide, bottom_mm - high
    shapes: list[Shape] = [rectangle("paper", left, top, right_mm, bottom_mm),
                           line("cut", (left, bottom_mm), (left, top), (right_mm, top))]  # fmt: skip
    one, two = top + 10.0, top + 22.0
    for start, end in (((left, one), (right_mm, one)), ((left + 74.0, two), (right_mm, two)),
                       ((left + 34.0, top), (left + 34.0, one)), ((left + 68.0, top), (left + 68.0, one)),
                       ((left + 96.0, top), (left + 96.0, one)),
                       ((left + 74.0, one), (left + 74.0, bottom_mm)),
                       ((left + 102.0, one), (left + 102.0, bottom_mm))):  # fmt: skip
        shapes.append(line("thin", start, end))
    fields: tuple[tuple[float, float, str, str, Use, float], ...] = (
        (0.0, 0.0, "Responsible", block.issue.responsible, "name", 34.0),
        (34.0, 0.0, "Checked by", block.issue.checked, "name", 34.0),
        (68.0, 0.0, "Record", block.issue.revision, "name", 28.0),
        (96.0, 0.0, "Date", block.issue.date, "name", 28.0),
        (0.0, 10.0, "Aeroplane, title", block.aeroplane, "title", 74.0),
        (74.0, 10.0, "Layout", block.issue.layout, "name", 28.0),
        (102.0, 10.0, "Units", "mm", "name", 22.0),
        (74.0, 22.0, "Projection, scale" if block.first_angle else "Scale", "", "name", 28.0),
        (102.0, 22.0, "Sheet", block.sheet, "name", 22.0),
    )
    for across, down, key, value, use, room in fields:
        x, y = left + across + 2.0, top + down
        shapes.append(Text("key", (x, y + 3.2), key, halo=False))
        if value:
            base = y + (10.3 if use == "title" else 8.2)
            shapes.append(Text(use, (x, base), shortened(value, use, PAPER, room - 3.0), halo=False))
    for down, words in _title_rows(block):
        shapes.append(Text("name", (left + 2.0, top + down), shortened(words, "name", PAPER, 70.0), halo=False))
    shapes.append(Text("key", (left + 2.0, bottom_mm - 1.8), SENTENCE, halo=False))
    scale_x = left + (92.0 if block.first_angle else 76.0)
    shapes.append(Text("name", (scale_x, bottom_mm - 2.6), block.scale, halo=False))
    if block.first_angle:
        shapes += _first_angle(left + 77.0, bottom_mm - 3.9)
    return tuple(shapes)


def _title_rows(block: TitleBlock) -> tuple[tuple[float, str], ...]:
    """Title and subtitle in one row where they have room, else in two, with their heights in mm."""
    both = f"{block.title}: {block.subtitle}" if block.subtitle else block.title
    if width(both, "name", PAPER) <= 70.0:
        return ((26.5, both),)
    return ((24.4, block.title), (28.3, block.subtitle))


def _first_angle(x: float, y: float) -> list[Shape]:
    """The symbol of first-angle projection (ISO 5456-2): the cone's side view, its end view right."""
    cone = ((x, y - 1.25), (x + 5.0, y - 2.5), (x + 5.0, y + 2.5), (x, y + 1.25))
    return [
        area("thin", cone), Circle("thin", (x + 10.0, y), 2.5), Circle("thin", (x + 10.0, y), 1.25),
        line("centre", (x - 1.0, y), (x + 13.5, y)), line("centre", (x + 10.0, y - 3.3), (x + 10.0, y + 3.3)),
    ]  # fmt: skip
