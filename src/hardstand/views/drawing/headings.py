"""Headings, captions and the small remarks of a sheet."""

from __future__ import annotations

from collections.abc import Sequence

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.kinds import Medium, Use
from hardstand.views.drawing.lettering import width, wrapped
from hardstand.views.drawing.shapes import Point, Shape, Text
from hardstand.views.notice import counts

_WORDS = {"no-go": ("no-go", "no-go"), "measure": ("to measure", "to measure"),
          "caution": ("caution", "cautions"), "note": ("note", "notes")}  # fmt: skip


def heading(at: Point, title: str, remark: str, medium: Medium, room: float) -> tuple[Shape, ...]:
    """The name of a view with a remark behind it, or under it where the room is too short."""
    use: Use = "head"
    shapes: list[Shape] = [Text(use, at, title, halo=False)]
    after = width(title, use, medium) + 12.0 * medium.unit
    if after + width(remark, "micro", medium) <= room:
        return (*shapes, Text("micro", (at[0] + after, at[1]), remark, halo=False))
    for row, words in enumerate(wrapped(remark, "micro", medium, room), 1):
        shapes.append(Text("micro", (at[0], at[1] + row * 16.0 * medium.unit), words, halo=False))
    return tuple(shapes)


def caption(at: Point, text: str) -> Text:
    """The name of a view in its corner."""
    return Text("caption", at, text, "end")


def tally_words(assessment: Assessment) -> tuple[str, str]:
    """The worst of what was found, and the rest, in words.

    The first is the sheet's headline; neither ever says that anything is safe.
    """
    found = counts({"findings": [{"severity": one.severity} for one in assessment.findings]})
    said = [f"{number} {_WORDS[word][number != 1]}" for word, number in found.items() if number]
    if not said:
        return "Nothing found", "in what was assessed"
    return said[0], f"then {', '.join(said[1:])}" if said[1:] else ""


def sheet_head(
    asbuilt: AsBuilt, assessment: Assessment, at: Point, medium: Medium
) -> tuple[tuple[Shape, ...], float]:
    """Aeroplane and verdict in the blank of the sheet; the shapes and where they end."""
    unit = medium.unit
    first, rest = tally_words(assessment)
    x, y = at
    shapes: tuple[Shape, ...] = (
        Text("caption", (x, y + 14.0 * unit), asbuilt.aeroplane.name, halo=False),
        Text("title", (x, y + 48.0 * unit), first, halo=False),
    )
    if rest:
        shapes = (*shapes, Text("micro", (x, y + 68.0 * unit), rest, halo=False))
    return shapes, y + 78.0 * unit


def remarks(at: Point, texts: Sequence[str], medium: Medium, measure: float) -> tuple[Shape, ...]:
    """Small remarks under one another."""
    rows = [row for text in texts for row in wrapped(text, "micro", medium, measure)]
    step = 16.0 * medium.unit
    return tuple(Text("micro", (at[0], at[1] + k * step), row, halo=False) for k, row in enumerate(rows))


def names_left_out(
    left_out: Sequence[str], where: str = "see the trays, or a wider sheet"
) -> list[str]:
    """The remark on names that found no place; nothing where all did.

    >>> names_left_out(["Gyro"])
    ['1 name has no room at this scale: see the trays, or a wider sheet.']
    """
    if not left_out:
        return []
    many = f"{len(left_out)} names have" if len(left_out) > 1 else "1 name has"
    return [f"{many} no room at this scale: {where}."]


def marks_left_out(unplaced: Sequence[int]) -> list[str]:
    """The remark on findings whose place is in the drawing without their mark.

    >>> marks_left_out([4, 5])
    ['2 findings have no room for their marks: their zones stand in the notes.']
    """
    if not unplaced:
        return []
    if len(unplaced) == 1:
        return ["1 finding has no room for its mark: its zone stands in the notes."]
    return [f"{len(unplaced)} findings have no room for their marks: their zones stand in the notes."]
