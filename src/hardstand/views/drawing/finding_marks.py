"""The marks of findings: the shape tells the severity in monochrome, the number which finding."""

from __future__ import annotations

from hardstand.findings import Severity
from hardstand.views.drawing.boxes import Box
from hardstand.views.drawing.kinds import Medium, Use
from hardstand.views.drawing.shapes import Circle, Path, Point, Shape, Text, area, rectangle

_HALF_WIDTH = {"no-go": 0.5, "measure": 0.86, "caution": 0.74, "note": 0.5}
_HALF_HEIGHT = {"no-go": 0.5, "measure": 0.46, "caution": 0.72, "note": 0.5}
_PER_FIGURE = {"no-go": 0.28, "measure": 0.28, "caution": 0.28, "note": 0.45}
SIZE = 19.0  # design pixels


def _size(severity: Severity, number: str, medium: Medium) -> float:
    """A number of three figures and more takes a larger mark: its lettering stays as high."""
    return SIZE * medium.unit * (1.0 + _PER_FIGURE[severity] * max(0, len(number) - 2))


def mark_box(severity: Severity, at: Point, medium: Medium, number: str = "") -> Box:
    """The room that a mark with its number takes about a point."""
    size = _size(severity, number, medium)
    half, up = _HALF_WIDTH[severity] * size, _HALF_HEIGHT[severity] * size
    return at[0] - half, at[1] - up, at[0] + half, at[1] + up


def finding_mark(severity: Severity, number: str, at: Point, medium: Medium) -> tuple[Shape, ...]:
    """The mark of a finding with its number.

    A no-go is a solid square with the number reversed, measure a bar pointed at both ends, caution a
    triangle, a note a thin circle.
    """
    x, y = at
    size = _size(severity, number, medium)
    half, up = _HALF_WIDTH[severity] * size, _HALF_HEIGHT[severity] * size
    body: Path | Circle
    if severity == "no-go":
        body = rectangle("solid", x - half, y - up, x + half, y + up)
    elif severity == "measure":
        body = area("item", ((x - half, y), (x - half / 2.0, y - up), (x + half / 2.0, y - up),
                             (x + half, y), (x + half / 2.0, y + up), (x - half / 2.0, y + up)))  # fmt: skip
    elif severity == "caution":
        body = area("item", ((x, y - up), (x + half, y + up * 0.78), (x - half, y + up * 0.78)))
    else:
        body = Circle("neighbour", at, half)
    # The lettering is as high in a large mark: its middle stays in the middle, or low in a triangle.
    low = y + 0.22 * SIZE * medium.unit + (0.14 * size if severity == "caution" else 0.0)
    use: Use = "reversed" if severity == "no-go" else "number"
    return body, Text(use, (x, low), number, "middle", halo=False)
