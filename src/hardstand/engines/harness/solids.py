"""What leads have to go round: items, keep-outs and trays, as boxes along the aeroplane's axes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from hardstand.asbuilt.value import PlacedItem
from hardstand.description.places import KeepOut
from hardstand.engines.kept import Kept
from hardstand.standards.rotation import turned

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Hazard = Literal["", "hot", "moving", "aerial"]
HOT_DEGC = 60.0  # what can be touched for a moment; common practice, no source
SHRUNK_MM = 1.0  # a lead may lie against a box
_FAR_MM = 1e4
_SIGNS = [(a, b, c) for a in (-0.5, 0.5) for b in (-0.5, 0.5) for c in (-0.5, 0.5)]


@dataclass(frozen=True, slots=True)
class Solid:
    """A box by its lowest and highest corner, mm; `id` of the item or keep-out that it is of."""

    id: str
    name: str
    low: tuple[float, float, float]
    high: tuple[float, float, float]
    hazard: Hazard


def solids(
    items: Iterable[PlacedItem], keep_outs: Iterable[KeepOut], kept: Kept | None = None
) -> tuple[Solid, ...]:  # fmt: skip
    """All that is in the way of leads. Round and tilted things are taken as the boxes around them."""
    kept = kept or Kept()
    boxes = kept.each("item boxes", {one.id: (one,) for one in items}, lambda one: tuple(_of_item(*one)))
    zones = kept.each("keep-out boxes", {one.id: (one,) for one in keep_outs},
                      lambda one: tuple(_of_keep_out(*one)))  # fmt: skip
    return tuple(one for found in (*boxes.values(), *zones.values()) for one in found)


def _of_item(item: PlacedItem) -> Iterator[Solid]:
    yield _around(item.id, item.name, _box_corners(item, 0.0), "")
    degc = item.part.hot_degc
    if degc is not None and degc >= HOT_DEGC:
        start = min(item.part.hot_from_mm or 0.0, item.size_mm[0])
        yield _around(item.id, item.name, _box_corners(item, start), "hot")


def _box_corners(item: PlacedItem, start_mm: float) -> Floats:
    """The corners (8, 3) of an item's box, from a length behind its front on."""
    length, width, height = item.size_mm
    offset = [((sx + 0.5) * (length - start_mm) + start_mm - length / 2.0, sy * width, sz * height)
              for sx, sy, sz in _SIGNS]  # fmt: skip
    corners = [turned(one, item.turn_deg, item.tilt_deg) for one in offset]
    return np.asarray(np.array(corners, dtype=np.float64) + np.array(item.centre_mm))


def _of_keep_out(row: KeepOut) -> Iterator[Solid]:
    hazard: Hazard = "hot" if row.kind == "hot" else "moving" if row.kind == "moving" else ""
    name = row.name or row.id
    if row.shape == "underside" and row.profile_mm and row.y_mm:
        for (x0, z0), (x1, z1) in zip(row.profile_mm, row.profile_mm[1:], strict=False):
            low, high = (x0, row.y_mm[0], min(z0, z1)), (x1, row.y_mm[1], _FAR_MM)
            yield Solid(row.id, name, low, high, hazard)
        return
    yield _around(row.id, name, _keep_out_corners(row), hazard)


def _keep_out_corners(row: KeepOut) -> Floats:
    if row.shape == "cylinder" and row.from_mm and row.to_mm and row.diameter_mm:
        ends = np.array([row.from_mm, row.to_mm], dtype=np.float64)
        along = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
        reach = row.diameter_mm / 2.0 * np.sqrt(np.maximum(1.0 - along**2, 0.0))
        return np.vstack([ends - reach, ends + reach])
    if row.shape == "prism" and row.outline_mm:
        return np.array([(x, y, z) for x, y in row.outline_mm for z in (row.bottom_mm, row.top_mm)],
                        dtype=np.float64)  # fmt: skip
    size, at = np.array(row.size_mm or (0.0,) * 3), np.array(row.at_mm or (0.0,) * 3)
    corners = [turned((a * size[0], b * size[1], c * size[2]), row.turn_deg, (0.0, 0.0))
               for a, b, c in _SIGNS]  # fmt: skip
    return np.asarray(np.array(corners, dtype=np.float64) + at)


def _around(id_: str, name: str, corners: Floats, hazard: Hazard) -> Solid:
    low, high = corners.min(axis=0).tolist(), corners.max(axis=0).tolist()
    return Solid(id_, name, tuple(low), tuple(high), hazard)


def crossed(a: Floats, b: Floats, low: Floats, high: Floats) -> Bools:
    """Which of N segments go through which of M boxes, (N, M).

    a, b: ends (N, 3), mm; low, high: corners (M, 3), mm.

    >>> ends = np.array([[0.0, 0.0, 0.0]]), np.array([[10.0, 0.0, 0.0]])
    >>> crossed(*ends, np.array([[4.0, -1.0, -1.0]]), np.array([[5.0, 1.0, 1.0]])).tolist()
    [[True]]

    Source: the slab method, common practice.
    """
    way = b - a
    way = np.where(np.abs(way) < 1e-9, 1e-9, way)
    into = np.full((len(a), len(low)), 0.0)
    out = np.full((len(a), len(low)), 1.0)
    for axis in range(3):
        one = (low[None, :, axis] - a[:, None, axis]) / way[:, None, axis]
        two = (high[None, :, axis] - a[:, None, axis]) / way[:, None, axis]
        into = np.maximum(into, np.minimum(one, two))
        out = np.minimum(out, np.maximum(one, two))
    return np.asarray(into < out)
