"""The marks of a template as shapes of a drawing, cut to a box."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from hardstand.views.drawing.boxes import bounds
from hardstand.views.drawing.clip import clipped, clipped_line
from hardstand.views.drawing.kinds import PAPER, Line
from hardstand.views.drawing.lettering import shortened, width
from hardstand.views.drawing.shapes import Circle, Group, Path, Placement, Shape, Text, placed
from hardstand.views.template.reference import PAD_MM
from hardstand.views.template.value import (
    LAYERS,
    Box,
    Layer,
    Mark,
    Ring,
    Round,
    Slot,
    Template,
    Word,
    line_of,
)

_LINES: Mapping[Layer, Line] = {"cut": "outline", "engrave": "thin", "reference": "rule"}
_UNCUT = ("station", "forward")


def field_shapes(made: Template, box: Box, on: Placement, *, words: bool = True) -> tuple[Shape, ...]:
    """What of a template lies in a box, layer by layer, as it lies on the sheet.

    What is only shown lies undermost, and what is cut on top of all, so that no halo of a name hides
    a piece of it. Without `words`, for a view that is reduced, neither names nor stations are drawn.
    """
    groups: list[Shape] = []
    for layer in reversed(LAYERS):
        marks = [one for one in made.of(layer) if words or one.about not in _UNCUT]
        shapes = [one for mark in marks for one in _shapes(mark, box)]
        groups.append(Group("", layer, placed(shapes, on)))
    rings = {one.about: one for one in made.of("reference") if isinstance(one, Ring)}
    texts = [text for mark in made.marks if isinstance(mark, Word) and words
             for text in _text(_within(mark, rings.get(mark.about), box), box, on)]  # fmt: skip
    *under, cut = groups
    return (*under, Group("", "names", tuple(texts)), cut)


def _shapes(mark: Mark, box: Box) -> list[Shape]:
    if isinstance(mark, Word):
        return []
    kind: Line = "centre" if mark.about == "centreline" else _LINES[mark.layer]
    points = line_of(mark)
    whole = all(box[0] <= x <= box[2] and box[1] <= y <= box[3] for x, y in points)
    if mark.about in _UNCUT and not whole:  # half a letter reads as another
        return []
    if whole and isinstance(mark, Round):
        return [Circle(kind, mark.centre, mark.diameter / 2.0)]
    if whole and isinstance(mark, Ring | Slot):
        return [Path(kind, (points[:-1],), closed=True)]
    strokes = clipped_line(points, box)
    return [Path(kind, strokes)] if strokes else []


def _within(word: Word, ring: Ring | None, box: Box) -> Word:
    """A name in the middle of what can be seen of its item where a box cuts it; else as it is."""
    if ring is None:
        return word
    seen = clipped(ring.points, box)
    if not seen or set(seen) == set(ring.points):
        return word
    left, low, right, high = bounds(seen)
    wide, tall = right - left, high - low
    return replace(word, at=((left + right) / 2.0, (low + high) / 2.0), room=max(wide, tall) - PAD_MM,
                   upright=tall > wide)


def _text(word: Word, box: Box, on: Placement) -> list[Text]:
    """A name where it lies wholly in the box and has room for more than a letter or two."""
    number = word.about.startswith("hole.")
    text = word.text if number else shortened(word.text, "name", PAPER, word.room * on.scale)
    half = width(text, "name", PAPER) / 2.0 / on.scale
    (x, y), low = word.at, 1.25
    reach = (low, half) if word.upright else (half, low)
    inside = (box[0] <= x - reach[0] and x + reach[0] <= box[2]
              and box[1] <= y - reach[1] and y + reach[1] <= box[3])  # fmt: skip
    if not inside or (not number and len(text.rstrip(".")) < 3 and text != word.text):
        return []
    sx, sy = on.point(x, y)
    at = (sx + 1.25, sy) if word.upright else (sx, sy + 1.25)
    return [Text("dimension" if number else "name", at, text, "middle", upright=word.upright)]
