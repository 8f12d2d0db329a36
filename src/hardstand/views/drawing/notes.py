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
_MOST, _REST = 24, "and more: `hardstand check` has all of it."  # rows of one note, shorter than any column
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
        high = note_height(finding, right - left, medium)
        last = row == len(findings)
        if y + high > bottom - (0.0 if last else 24.0 * unit):
            left_over = len(findings) - row + 1
            more = f"and {left_over} more" if row > 1 else f"{left_over} about what is drawn here"
            more += ": see the sheet of notes" if medium.name == "paper" else ""
            shapes.append(Text("micro", (left + _AT * unit, y + 16.0 * unit), more, halo=False))
            return tuple(shapes), y + 24.0 * unit
        at = (left, y, right, y + high)
        shapes.append(note(finding, number, zones.get(number, ""), at, medium))
        y += high
    if not findings:
        for words in wrapped(NOTHING, "micro", medium, right - left - 20.0 * unit):
            shapes.append(Text("micro", (left + 12.0 * unit, y + 14.0 * unit), words, halo=False))
            y += 16.0 * unit
        y += 14.0 * unit
    return tuple(shapes), y


def note_height(finding: Finding, width: float, medium: Medium) -> float:
    """How high the note of a finding is in a column of a width."""
    return (_LINE * (len(_sentences(finding, width, medium)) + 1) + 12.0) * medium.unit


def _sentences(finding: Finding, width: float, medium: Medium) -> list[str]:
    rows = wrapped(finding.text, "note", medium, width - (_AT + 12.0) * medium.unit)
    return rows if len(rows) <= _MOST else [*rows[: _MOST - 1], _REST]


def note(finding: Finding, number: int, zone: str, room: Box, medium: Medium) -> Group:
    """One note: mark, severity and code, zone, and under them what was found."""
    left, top, right, _ = room
    unit = medium.unit
    sentences = _sentences(finding, right - left, medium)
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
    return sum(note_height(one, width, medium) for _, one in findings) + 74.0 * medium.unit
