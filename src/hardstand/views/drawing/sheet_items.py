"""The list of all items by number on a screen."""

from __future__ import annotations

from hardstand.asbuilt import AsBuilt
from hardstand.views.drawing.frame import frame_shapes, screen_frame
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.numbering import entries, item_list
from hardstand.views.drawing.page import page
from hardstand.views.drawing.shapes import Group, Shape
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.title_block import SCREEN_HEIGHT, TitleBlock, screen_title_block
from hardstand.views.drawing.wanted import Wanted


def items_sheet(asbuilt: AsBuilt, wanted: Wanted) -> Sheet:
    """All items by number, from the nose aft, on a screen of the wanted width."""
    on = page(wanted.width_px)
    end = on.width - on.left  # no notes stand beside it
    rows = entries(asbuilt)
    listed, bottom = item_list(rows, (on.left, on.top + 8.0), end - on.left, SCREEN,
                               "Items by number, from the nose aft")  # fmt: skip
    frame = screen_frame(on.width, bottom + (16.0 if on.narrow else SCREEN_HEIGHT + 28.0))
    left, _, right, low = frame.border
    shapes: tuple[Shape, ...] = (*frame_shapes(frame, SCREEN), *listed)
    said = f"{len(rows)} items"
    if not on.narrow:
        block = TitleBlock(asbuilt.aeroplane.name, "Items by number", said, "–", wanted.sheet or "1b", wanted.issue)
        foot = screen_title_block(block, (left, low - SCREEN_HEIGHT, right, low))
        shapes = (*shapes, Group("", "title-block", foot))
    return Sheet(on.width, frame.height, SCREEN, f"{asbuilt.aeroplane.name}: items by number", said, shapes)
