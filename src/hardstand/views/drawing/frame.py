"""The border of a sheet with its zones, and the room that it leaves inside."""

from __future__ import annotations

from dataclasses import dataclass

from hardstand.views.drawing.boxes import Box
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.shapes import Point, Shape, Text, line, rectangle

COLUMNS, ROWS = 8, "ABCDEF"


@dataclass(frozen=True, slots=True)
class Frame:
    """A sheet's size, its border and its margin of zones, in units of the medium."""

    width: float
    height: float
    border: Box
    margin: float

    def zone(self, at: Point) -> str:
        """The zone in which a point lies: a letter down the sheet, a figure along it.

        >>> Frame(100.0, 60.0, (10.0, 10.0, 90.0, 58.0), 5.0).zone((15.0, 12.0))
        'A1'
        """
        left, top, right, bottom = self.border
        column = int((at[0] - left) / (right - left) * COLUMNS)
        row = int((at[1] - top) / (bottom - top) * len(ROWS))
        return f"{ROWS[min(max(row, 0), len(ROWS) - 1)]}{min(max(column, 0), COLUMNS - 1) + 1}"


def screen_frame(width: float, height: float) -> Frame:
    """The frame of a screen sheet: wide sheets have zones, narrow ones only their edge."""
    if width < 700.0:
        return Frame(width, height, (0.0, 0.0, width, height), 0.0)
    return Frame(width, height, (32.0, 28.0, width - 32.0, height - 12.0), 18.0)


def paper_frame(width_mm: float, height_mm: float) -> Frame:
    """The frame of a printed sheet: 20 mm at the binding edge, 10 mm elsewhere (ISO 5457)."""
    return Frame(width_mm, height_mm, (20.0, 10.0, width_mm - 10.0, height_mm - 10.0), 5.0)


def frame_shapes(frame: Frame, medium: Medium) -> tuple[Shape, ...]:
    """Border, zone figures along the top and letters down both sides; nothing for a narrow sheet."""
    if not frame.margin:
        return ()
    left, top, right, bottom = frame.border
    shapes: list[Shape] = [rectangle("cut", left, top, right, bottom)]
    wide, high = (right - left) / COLUMNS, (bottom - top) / len(ROWS)
    size, off = medium.height("key"), frame.margin / 2.0
    tick = frame.margin * 0.5
    for number in range(COLUMNS):
        x = left + (number + 0.5) * wide
        shapes.append(Text("key", (x, top - off + 0.36 * size), str(number + 1), "middle", halo=False))
        if number:
            shapes.append(line("thin", (x - wide / 2.0, top), (x - wide / 2.0, top - tick)))
    for number, letter in enumerate(ROWS):
        y = top + (number + 0.5) * high
        for edge, out in ((left, -1.0), (right, 1.0)):
            at = (edge + out * off, y + 0.36 * size)
            shapes.append(Text("key", at, letter, "middle", halo=False))
            if number:
                start = (edge, y - high / 2.0)
                shapes.append(line("thin", start, (edge + out * tick, y - high / 2.0)))
    return tuple(shapes)
