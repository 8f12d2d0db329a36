"""A small mesh for the tests: a box along x, written as text without any library."""

from __future__ import annotations

from itertools import product
from pathlib import Path

# Two triangles for each side, by the numbers of the corners: x changes slowest, z fastest.
_SIDES = (
    (0, 1, 3), (0, 3, 2), (4, 6, 7), (4, 7, 5), (0, 4, 5), (0, 5, 1),
    (2, 3, 7), (2, 7, 6), (0, 2, 6), (0, 6, 4), (1, 5, 7), (1, 7, 3),
)  # fmt: skip


def box(path: Path, *, without: int = 0, scale: float = 1.0) -> Path:
    """A box from x 0 to 600, 120 wide, z from -40 to 60; with some of its last triangles left out."""
    corners = [
        tuple(scale * one for one in corner)
        for corner in product((0.0, 600.0), (-60.0, 60.0), (-40.0, 60.0))
    ]
    lines = ["solid box"]
    for side in _SIDES[: len(_SIDES) - without]:
        points = [f"vertex {corners[at][0]} {corners[at][1]} {corners[at][2]}" for at in side]
        lines += ["facet normal 0 0 0", "outer loop", *points, "endloop", "endfacet"]
    path.write_text("\n".join([*lines, "endsolid box", ""]), encoding="ascii")
    return path
