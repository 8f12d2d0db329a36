"""The findings beside a drawing as its numbered notes, worst first, as many as there is room for."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from hardstand.assessment import Assessment
from hardstand.findings import Finding
from hardstand.views.drawing.boxes import Box
from hardstand.views.drawing.finding_marks import finding_mark
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.lettering import wrapped
from hardstand.views.drawing.shapes import Group, Shape, Text, line

Numbered = tuple[int, Finding]  # the number is that of `check`: worst first over the whole aeroplane
NOTHING = "Nothing found about what is drawn here, in what was assessed."
_LINE = 18.0  # design pixels from one line to the next
_AT = 44.0  # where the sentences begin, right of the marks


def numbered(assessment: Assessment, about: Collection[str] | None = None) -> list[Numbered]:
    """Findings with their numbers, all of them or those about some ids."""
    rows = list(enumerate(assessment.findings, 1))
    return rows if about is None else [row for row in rows if not set(row[1].about).isdisjoint(about)]


def notes(
    findings: Sequence[Numbered], zones: Mapping[int, str], room: Box, medium: Medium
) -> tuple[tuple[Shape, ...], float]:
    """Notes in a column, and where they end. `zones` says where a numbered mark stands.

    What finds no room is counted in a last line, never dropped in silence.
    """
    left, top, right, bottom = room
    unit = medium.unit
    shapes: list[Shape] = [Text("caption", (left + 12.0 * unit, top + 22.0 * unit), "Notes, worst first",
                                halo=False)]  # fmt: skip
    y = top + 34.0 * unit
    for row, (number, finding) in enumerate(findings, 1):
        measure = right - left - (_AT + 12.0) * unit
        sentences = wrapped(finding.text, "note", medium, measure)
        high = (_LINE * (len(sentences) + 1) + 12.0) * unit
        last = row == len(findings)
        if y + high > bottom - (0.0 if last else 24.0 * unit):
            more = f"and {len(findings) - row + 1} more"
            shapes.append(Text("micro", (left + _AT * unit, y + 16.0 * unit), more, halo=False))
            return tuple(shapes), y + 24.0 * unit
        at = (left, y, right, y + high)
        shapes.append(_note(finding, number, zones.get(number, ""), sentences, at, medium))
        y += high
    if not findings:
        for words in wrapped(NOTHING, "micro", medium, right - left - 20.0 * unit):
            shapes.append(Text("micro", (left + 12.0 * unit, y + 14.0 * unit), words, halo=False))
            y += 16.0 * unit
        y += 14.0 * unit
    return tuple(shapes), y


def _note(
    finding: Finding, number: int, zone: str, sentences: Sequence[str], room: Box, medium: Medium
) -> Group:
    left, top, right, _ = room
    unit = medium.unit
    base = top + 18.0 * unit
    head = f"{finding.severity}   {finding.code}"
    shapes: list[Shape] = [line("rule", (left, top), (right, top))]
    shapes += finding_mark(finding.severity, str(number), (left + 22.0 * unit, base - 3.0 * unit), medium)
    shapes.append(Text("caption", (left + _AT * unit, base), head, halo=False))
    if zone:
        shapes.append(Text("key", (right - 12.0 * unit, base), zone, "end", halo=False))
    for row, sentence in enumerate(sentences, 1):
        at = (left + _AT * unit, base + row * _LINE * unit)
        shapes.append(Text("note", at, sentence, halo=False))
    data = (("finding", str(number)), ("code", finding.code), ("severity", finding.severity))
    title = f"{number}, {finding.severity}, {finding.code}"
    return Group(" ".join(finding.about), "note", tuple(shapes), title, data)


def notes_height(findings: Sequence[Numbered], width: float, medium: Medium) -> float:
    """How high a column of notes of a width is where nothing is left out."""
    measure = width - (_AT + 12.0) * medium.unit
    lines = sum(len(wrapped(one.text, "note", medium, measure)) + 1 for _, one in findings)
    return (34.0 + _LINE * lines + 12.0 * len(findings) + 40.0) * medium.unit
