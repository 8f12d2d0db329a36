"""From an aeroplane and what was found about it to the template of one of its trays."""

from __future__ import annotations

from collections.abc import Sequence

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.description.places import Hole, Tray
from hardstand.engines.fit.model import PassThroughs
from hardstand.views.drawing.boxes import bounds
from hardstand.views.template.cuts import for_machine, opening_cut, outline_cut, polygon_of
from hardstand.views.template.engraved import engraved
from hardstand.views.template.reference import centre_marks, item_marks, number_marks
from hardstand.views.template.value import Mark, Opening, Ring, Round, Slot, Template

_WORST = ("no-go", "measure", "caution", "note")


def template(asbuilt: AsBuilt, assessment: Assessment, tray_id: str, kerf_mm: float = 0.0) -> Template:
    """The template of a tray.

    kerf_mm is how wide a cutter's beam is: for a machine (`cuts.for_machine`) the cuts are moved by half
    of it. Raises KeyError
    where there is no such tray, TemplateError where the kerf leaves nothing of an opening.
    """
    tray = next((one for one in asbuilt.trays if one.id == tray_id), None)
    if tray is None:
        raise KeyError(tray_id)
    holes = [one for one in asbuilt.holes if one.tray == tray_id]
    outline = outline_cut(tray)
    cuts = [opening_cut(one) for one in holes]
    plate = polygon_of(outline)
    shapes = [polygon_of(one) for one in cuts]
    marks: list[Mark] = [*cuts, outline, *engraved(plate, shapes)]  # what falls out last is cut last
    for item in asbuilt.items:
        if item.on == tray_id:
            marks += item_marks(item)
    for cut in cuts:
        marks += centre_marks(cut)
    marks += number_marks([(cut.about, shape) for cut, shape in zip(cuts, shapes, strict=True)], plate,
                          [cut.about for cut in cuts if isinstance(cut, Ring)])  # the others have crosses there
    openings = tuple(_opening(number, hole, assessment) for number, hole in enumerate(holes, 1))
    crossing = [hole.id for hole, shape in zip(holes, shapes, strict=True) if not plate.covers(shape)]
    x0, y0, x1, y1 = bounds(tray.outline_mm)
    made = Template(asbuilt.aeroplane.name, tray.id, tray.name or tray.id, tray.thickness_mm, kerf_mm,
                    (x1 - x0, y1 - y0), tuple(marks), openings,
                    _remarks(tray, openings, crossing, kerf_mm, assessment))
    for_machine(made)  # say at once that the kerf is too wide
    return made


def _opening(number: int, hole: Hole, assessment: Assessment) -> Opening:
    found = assessment.results.get("fit.pass-throughs")
    rows = found.rows if isinstance(found, PassThroughs) else ()
    row = next((one for one in rows if one.hole == hole.id), None)
    narrow = any(one.code == "fit.pass-through" and one.about[0] == hole.id and one.severity != "measure"
                 for one in assessment.findings)
    cut, at = _words(opening_cut(hole))
    return Opening(number, hole.id, hole.purpose, cut, at, len(row.leads) if row else 0,
                   row.bundle_mm if row else None, row.needed_mm if row else None, narrow)


def _words(cut: Ring | Round | Slot) -> tuple[str, tuple[float, float]]:
    """An opening in words, and its middle."""
    if isinstance(cut, Round):
        return f"Ø {cut.diameter:g}", cut.centre
    if isinstance(cut, Slot):
        (x0, y0), (x1, y1) = cut.start, cut.end
        long = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 + cut.width
        return f"slot {long:g} × {cut.width:g}", ((x0 + x1) / 2.0, (y0 + y1) / 2.0)
    x0, y0, x1, y1 = bounds(cut.points)
    return f"outline {x1 - x0:g} × {y1 - y0:g}", ((x0 + x1) / 2.0, (y0 + y1) / 2.0)


def _remarks(
    tray: Tray, openings: Sequence[Opening], crossing: Sequence[str], kerf_mm: float, assessment: Assessment
) -> tuple[str, ...]:
    """What is to be said of the template, what matters most first."""
    said = [one.text for one in sorted(assessment.findings, key=lambda one: _WORST.index(one.severity))
            if one.code == "fit.pass-through" and one.about[0] in {hole.id for hole in openings}]
    if crossing:
        said.append(f"{', '.join(crossing)}: not within the edge. Cut the edge open there.")
    if any(one.purpose == "leads" and not one.leads for one in openings):
        said.append("Openings whose leads are not named (via) are cut as declared.")
    if any(one.leads for one in openings):
        said.append("Leads: wires by gauge, filling 40 % of the opening (NFPA 70, chapter 9, table 1). "
                    "Plugs need their own room, or are fitted afterwards.")
    if kerf_mm:
        said.append(f"DXF and SVG are moved for a kerf of {kerf_mm:g} mm: the outline {kerf_mm / 2:g} mm out, "
                    f"openings {kerf_mm / 2:g} mm in. Paper shows the true size.")
    if all(one.purpose != "screw" for one in openings):
        said.append("Fastening holes of the items are not described: mark them from the items.")
    if tray.height_mm is not None:
        said.append(f"Free height above the tray: {tray.height_mm:g} mm.")
    return tuple(said)
