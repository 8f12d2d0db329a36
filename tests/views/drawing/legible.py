"""What makes a sheet illegible: texts on one another, texts off the sheet or over its border."""

from __future__ import annotations

import numpy as np

from hardstand.views.drawing.boxes import grown, overlap, stacked, text_box
from hardstand.views.drawing.shapes import Text, flat
from hardstand.views.drawing.svg import Sheet

BORDER_MM = (20.0, 10.0, 10.0, 10.0)  # left, top, right, bottom


def texts(sheet: Sheet) -> list[Text]:
    """All texts of a sheet."""
    return [one for one in flat(sheet.shapes) if isinstance(one, Text) and one.text]


def clashes(sheet: Sheet) -> list[tuple[str, str]]:
    """The pairs of texts whose boxes, less half a pixel of air, overlap."""
    found = texts(sheet)
    boxes = stacked(grown(text_box(one, sheet.medium), -0.5 * sheet.medium.unit) for one in found)
    pairs = np.argwhere(np.triu(overlap(boxes, boxes), 1))
    return [(found[i].text, found[j].text) for i, j in pairs]


def off_the_sheet(sheet: Sheet) -> list[str]:
    """The texts that leave the sheet; on paper those that cross its border."""
    low, high = np.zeros(2), np.array([sheet.width, sheet.height])
    found = texts(sheet)
    boxes = stacked(grown(text_box(one, sheet.medium), -0.5 * sheet.medium.unit) for one in found)
    off = (boxes[:, :2] < low).any(axis=1) | (boxes[:, 2:] > high).any(axis=1)
    if sheet.medium.name == "paper":
        left, top, right, bottom = BORDER_MM
        edges = ((0, left), (1, top), (0, sheet.width - right), (1, sheet.height - bottom))
        for axis, at in edges:
            off |= (boxes[:, axis] < at) & (boxes[:, axis + 2] > at)
    return [found[i].text for i in np.flatnonzero(off)]
