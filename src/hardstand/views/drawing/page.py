"""What every screen sheet has alike: room for the drawing, notes beside or under it, title block."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from hardstand.views.drawing.frame import Frame, frame_shapes, screen_frame
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.notes import Numbered, notes, notes_height
from hardstand.views.drawing.shapes import Group, Shape, line
from hardstand.views.drawing.title_block import SCREEN_HEIGHT, TitleBlock, screen_title_block

NARROW, BESIDE = 700.0, 1200.0  # below: no border; from here: notes stand beside the drawing
COLUMN = 392.0


@dataclass(frozen=True, slots=True)
class Page:
    """A screen sheet of a width before its height is known.

    `left`, `right`, `top` bound the drawing; `column` is the width of the notes beside it, 0 where
    they stand under it.
    """

    width: float
    narrow: bool
    left: float
    right: float
    top: float
    column: float

    def notes_width(self) -> float:
        """The width that the notes have."""
        return self.column or self.width - 2.0 * (0.0 if self.narrow else 32.0)

    def frame(self, bottom: float, findings: Sequence[Numbered]) -> Frame:
        """The frame of the sheet whose drawing ends at `bottom` and that has these notes."""
        high = notes_height(findings, self.notes_width(), SCREEN)
        if self.column:  # a long list is cut rather than let the drawing float on an empty sheet
            bottom = max(bottom, min(self.top + high, 1.25 * bottom))
        else:
            bottom += high
        return screen_frame(self.width, bottom + (8.0 if self.narrow else SCREEN_HEIGHT + 12.0))


def page(width: float) -> Page:
    """The page of a width in pixels."""
    narrow = width < NARROW
    edge, pad = (0.0, 14.0) if narrow else (32.0, 34.0)
    column = COLUMN if width >= BESIDE else 0.0
    return Page(width, narrow, edge + pad, width - edge - column - pad, edge + (8.0 if narrow else 14.0), column)


def page_shapes(
    on: Page, frame: Frame, bottom: float, findings: Sequence[Numbered], zones: Mapping[int, str],
    block: TitleBlock,
) -> tuple[Shape, ...]:  # fmt: skip
    """Border, notes and title block. `bottom` is where the drawing ends."""
    left, top, right, low = frame.border
    foot = low - (0.0 if on.narrow else SCREEN_HEIGHT)
    if on.column:
        room = (right - on.column, top, right, foot)
        shapes: list[Shape] = [line("thin", (right - on.column, top), (right - on.column, foot))]
    else:
        room = (left, bottom, right, foot)
        shapes = [line("thin", (left, bottom), (right, bottom))]
    listed, _ = notes(findings, zones, room, SCREEN)
    shapes.append(Group("", "notes", listed))
    if not on.narrow:
        at = (left, foot, right, low)
        shapes.append(Group("", "title-block", screen_title_block(block, at)))
    return (*frame_shapes(frame, SCREEN), *shapes)
