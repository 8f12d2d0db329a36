"""Hatches as openings: which way they open, how far their edge is known, what lies within."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from hardstand.asbuilt.value import BaySection
from hardstand.description.places import Hatch
from hardstand.engines.fit.body import Floats
from hardstand.figures import Input
from hardstand.standards import tolerances

if TYPE_CHECKING:
    from shapely import Polygon

WAYS: dict[str, Floats] = {
    "up": np.array([0.0, 0.0, 1.0]),
    "down": np.array([0.0, 0.0, -1.0]),
    "left": np.array([0.0, -1.0, 0.0]),
    "right": np.array([0.0, 1.0, 0.0]),
}
OUT_MM = 250.0  # how far out is out where neither hatch nor bay says it


def edge_of(hatch: Hatch) -> Input:
    """How well the edge of a hatch is known, as an input of value 0."""
    address, default = f"hatch.{hatch.id}.outline_mm", tolerances.EDGE
    u_from = f"class default: {default.name}"
    return Input(address, 0.0, "mm", default.fixed / 2.0, "declared", address, u_from)


def window(hatch: Hatch) -> Polygon | None:
    """The opening seen along the way it opens: x and y, or for one in a side x and z.

    None for a hatch in a side without `bottom_mm` and `top_mm`: its height is not known.
    """
    from shapely import Polygon, box

    outline = Polygon(hatch.outline_mm)
    if hatch.opens in ("up", "down"):
        return outline
    if hatch.bottom_mm is None or hatch.top_mm is None:
        return None
    low_x, _, high_x, _ = outline.bounds
    return box(low_x, hatch.bottom_mm, high_x, hatch.top_mm)


def across(hatch: Hatch) -> tuple[int, int]:
    """The two axes of the opening's plane."""
    return (0, 1) if hatch.opens in ("up", "down") else (0, 2)


def way_out_mm(
    hatch: Hatch, low_mm: Floats, high_mm: Floats, sections: Sequence[BaySection]
) -> float:
    """How far a box from `low_mm` to `high_mm` (3,) goes along the hatch's way until it is out.

    Out is beyond the hatch's height where that is stated, else beyond the bay's skin, else 250 mm.
    """
    axis = 2 if hatch.opens in ("up", "down") else 1
    outward = hatch.opens in ("up", "right")
    stated = hatch.top_mm if hatch.opens == "up" else hatch.bottom_mm
    if stated is None or axis == 1:
        near = [one for one in sections if low_mm[0] - OUT_MM <= one.x_mm <= high_mm[0] + OUT_MM]
        edges = [point[axis - 1] for one in near for point in one.outline_mm]
        if not edges:
            return OUT_MM
        stated = max(edges) if outward else min(edges)
    return max(float(stated - low_mm[axis] if outward else high_mm[axis] - stated), 0.0)
