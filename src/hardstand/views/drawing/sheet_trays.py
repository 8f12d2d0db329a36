"""The sheets of trays: one tray, or the stretch of all of them, on a screen or on paper."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from hardstand.asbuilt import AsBuilt
from hardstand.asbuilt.value import PlacedItem
from hardstand.assessment import Assessment
from hardstand.description.places import Tray
from hardstand.views.drawing.equipment import corners
from hardstand.views.drawing.headings import marks_left_out, names_left_out, remarks
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.notes import numbered
from hardstand.views.drawing.numbering import item_numbers
from hardstand.views.drawing.page import page, page_shapes
from hardstand.views.drawing.region import Region, region_of
from hardstand.views.drawing.region_drawing import RegionDrawn, draw_region, set_region
from hardstand.views.drawing.ruler import scale_bar
from hardstand.views.drawing.shapes import Group, Shape
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.table import ROW, Row, table
from hardstand.views.drawing.title_block import TitleBlock
from hardstand.views.drawing.tray_dimensions import length
from hardstand.views.drawing.wanted import Wanted

HEADS = ("Item", "x", "y", "box, mm", "top")
_HIGHEST = 430.0  # the most that a plan may take of a screen's height, px


def tray_of(asbuilt: AsBuilt, tray_id: str) -> Tray:
    """A tray by its id; raises KeyError, naming those there are."""
    for tray in asbuilt.trays:
        if tray.id == tray_id:
            return tray
    raise KeyError(f"no tray {tray_id!r}; there are {', '.join(one.id for one in asbuilt.trays)}")


def tray_sheet(
    asbuilt: AsBuilt,
    assessment: Assessment,
    wanted: Wanted,
) -> Sheet:
    """A tray, or without an id all of them in one stretch, on a screen."""
    trays, title = wanted_trays(asbuilt, wanted)
    region = region_of(asbuilt, trays)
    on = page(wanted.width_px)
    span = (region.x_mm[1] - region.x_mm[0], region.y_mm[1] - region.y_mm[0])
    scale = min((on.right - on.left - 96.0) / span[0], _HIGHEST / span[1])
    at = set_region(region, (on.left, on.top, on.right, 0.0), scale, SCREEN)
    rows = item_rows(asbuilt, region, wanted.selected)
    table_top = at.bottom + 54.0
    bottom = table_top + (len(rows) + 1) * ROW + 22.0
    findings = numbered(assessment, about_region(asbuilt, region))
    frame = on.frame(bottom, findings)
    drawn = draw_region(asbuilt, assessment, region, at, findings, frame, SCREEN, wanted)
    rows = item_rows(asbuilt, region, wanted.selected, drawn.numbered)
    listed, _ = table(HEADS, rows, (on.left, table_top), min(on.right - on.left, 620.0), SCREEN)
    block = TitleBlock(asbuilt.aeroplane.name, title, subtitle(region), "by the bar", wanted.sheet or "2", wanted.issue)
    shapes = (
        *page_shapes(on, frame, bottom, findings, drawn.marks.zones, block),
        *drawn.shapes, *listed, *_remarks(drawn, (on.left, at.bottom + 24.0), on.right, at.plan.scale),
    )  # fmt: skip
    said = f"{len(rows)} items on {len(trays)} trays, plan and elevation, {len(findings)} findings"
    return Sheet(on.width, frame.height, SCREEN, f"{asbuilt.aeroplane.name}: {title}", said, shapes)


def wanted_trays(asbuilt: AsBuilt, wanted: Wanted) -> tuple[tuple[Tray, ...], str]:
    """The trays of a sheet and its title; raises KeyError where there is no such tray."""
    if wanted.tray is not None:
        tray = tray_of(asbuilt, wanted.tray)
        return (tray,), tray.name or tray.id
    if wanted.trays:
        return tuple(tray_of(asbuilt, one) for one in wanted.trays), "Trays"
    return tuple(asbuilt.trays), "Trays"


def subtitle(region: Region) -> str:
    """The stretch of stations that a sheet shows."""
    xs = [x for tray in region.trays for x, _ in tray.outline_mm]
    return f"stations {length(min(xs))} to {length(max(xs))}"


def item_rows(
    asbuilt: AsBuilt, region: Region, selected: Sequence[str], numbered: Collection[str] = ()
) -> list[Row]:
    """The items of a region's trays by station: number where the drawing has it, base, box, top."""
    on = {tray.id for tray in region.trays}
    here = sorted((item for item in asbuilt.items if item.on in on), key=lambda item: item.centre_mm[0])
    numbers = item_numbers(asbuilt)
    return [item_row(item, f"{numbers[item.id]}  " if item.id in numbered else "", selected=item.id in selected)
            for item in here]  # fmt: skip


def item_row(item: PlacedItem, number: str = "", *, selected: bool) -> Row:
    """An item as a row of a table: name behind its number, place, box, top."""
    x, y, _ = item.centre_mm
    box = " × ".join(length(one) for one in item.size_mm)
    top = float(corners(item)[:, 2].max())
    figures = [f"{one:.1f}".replace("-", "−") for one in (x, y, top)]
    return Row(f"item.{item.id}", (number + item.name, figures[0], figures[1], box, figures[2]), selected)


def about_region(asbuilt: AsBuilt, region: Region) -> set[str]:
    """The ids that a finding about a region may speak of: its trays, their items and openings."""
    on = {tray.id for tray in region.trays}
    items = {item.id for item in asbuilt.items if item.on in on}
    return on | items | {hole.id for hole in asbuilt.holes if hole.tray in on}


def _remarks(drawn: RegionDrawn, at: tuple[float, float], right: float, scale: float) -> list[Shape]:
    from hardstand.views.drawing.shapes import Placement

    texts = [*names_left_out(drawn.left_out), *marks_left_out(drawn.marks.unplaced)]
    bar = scale_bar(at[0] + 26.0, at[1], Placement(scale, (0.0, 0.0)), SCREEN, (right - at[0]) / 3.0)
    return [Group("", "scale-bar", bar),
            *remarks((at[0] + (right - at[0]) / 2.0, at[1] + 4.0), texts, SCREEN, (right - at[0]) / 2.0)]  # fmt: skip
