"""A mesh brought into the description: checked to be closed, cut, and made rows of one bay."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from hardstand.changes import AddRow
from hardstand.description.aliases import names_in, present_id
from hardstand.description.mesh_sections import (
    Floats,
    MeshError,
    even_stations,
    mesh_sections,
    triangles_of,
)
from hardstand.description.new_ids import free_id, is_id
from hardstand.description.problems import listed
from hardstand.description.raw import Raw

# Corners that are alike but for rounding meet on one of these grids (step and offset, mm). A coarser
# grid never opens a closed mesh: every edge keeps an even number of sides.
_GRIDS = ((1e-3, 0.0), (1e-2, 0.0), (1e-2, 0.5))


@dataclass(frozen=True, slots=True)
class MeshImport:
    """How a mesh lies: its scale to mm, its shift in the aeroplane's axes, the skin to take off.

    `stations_mm` are where it is cut; with none, `count` stations are spread over its length.
    """

    path: Path
    bay: str
    stations_mm: tuple[float, ...] = ()
    count: int = 0
    scale: float = 1.0
    shift_x_mm: float = 0.0
    shift_z_mm: float = 0.0
    skin_mm: float = 2.0
    tol_mm: float | None = None


def imported_rows(raw: Raw, what: MeshImport) -> list[AddRow]:
    """The rows to add: the bay where it is missing, and a section for each station.

    Raises MeshError where the file is no mesh or an open one, there is nothing at a station, or the
    bay has a section there already.
    """
    bay = present_id("bay", what.bay, names_in(raw.rows.get("alias", [])))
    if not is_id(bay):
        raise MeshError(f'"{bay}" is no id for a bay: letters, figures and hyphens')
    stations = what.stations_mm or tuple(
        even_stations(what.path, what.count, what.scale, what.shift_x_mm)
    )
    corners = triangles_of(what.path) * what.scale
    _refuse_open(corners, what.shift_x_mm)
    sections = raw.rows.get("section", [])
    _refuse_taken(bay, stations, sections)
    shift = (what.shift_x_mm, 0.0, what.shift_z_mm)
    cut = mesh_sections(what.path, stations, bay, skin_mm=what.skin_mm, scale=what.scale,
                        shift_mm=shift, tol_mm=what.tol_mm)  # fmt: skip
    _refuse_nothing(corners, what, stations, [row.row["x_mm"] for row in cut])
    is_new = bay not in raw.ids_of("bay")
    if is_new and len(cut) == 1:
        raise MeshError(f"the bay {bay} is new and needs two or more stations")
    taken = {str(one.get("id")) for one in sections}
    rows = [AddRow("bay", {"id": bay})] if is_new else []
    for one in cut:
        name = free_id(one.row["id"], taken)
        taken.add(name)
        rows.append(AddRow("section", {**one.row, "id": name}))
    return rows


def section_form(row: AddRow) -> dict[str, Any]:
    """What there is to see of a section: its station, half its width, its top and bottom, in mm.

    >>> outline = [[-30, -20], [30, -20], [30, 25], [-30, 25]]
    >>> section_form(AddRow("section", {"id": "a", "x_mm": 100, "outline_mm": outline}))["half_width_mm"]
    30.0
    """
    y, z = np.asarray(row.row["outline_mm"], dtype=np.float64).T
    return {"id": row.row["id"], "x_mm": float(row.row["x_mm"]), "half_width_mm": float(np.ptp(y)) / 2.0,
            "top_mm": float(z.max()), "bottom_mm": float(z.min()), "height_mm": float(np.ptp(z)),
            "points": len(y)}  # fmt: skip


def open_edges(corners_mm: Floats) -> Floats:
    """The edges (E, 2, 3) at which a mesh is open: those on an odd number of its triangles.

    Corners (T, 3, 3) in mm. Corners closer than 0.01 mm may count as one.

    >>> import trimesh
    >>> box = trimesh.creation.box().triangles
    >>> len(open_edges(box)), len(open_edges(box[:-1]))
    (0, 3)
    """
    points = corners_mm.reshape(-1, 3)
    fewest: Floats = np.empty((0, 2, 3))
    for number, (step, offset) in enumerate(_GRIDS):
        _, same = np.unique(np.round(points / step + offset), axis=0, return_inverse=True)
        faces = same.reshape(-1, 3)
        sides = np.sort(np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]]))
        sides = sides[sides[:, 0] != sides[:, 1]]
        known, times = np.unique(sides, axis=0, return_counts=True)
        odd = known[times % 2 == 1]
        _, place = np.unique(same, return_index=True)
        found: Floats = points[place[odd]]
        if not len(found):
            return found
        fewest = found if number == 0 or len(found) < len(fewest) else fewest
    return fewest


def _refuse_open(corners: Floats, shift_x_mm: float) -> None:
    edges = open_edges(corners)
    if len(edges):
        x = edges[:, :, 0] + shift_x_mm
        count = "1 edge" if len(edges) == 1 else f"{len(edges)} edges"
        raise MeshError(f"the mesh is open at {count}, from x {x.min():.0f} to {x.max():.0f}: close it "
                        "in the program that it comes from, so that its inside is sure")


def _refuse_taken(bay: str, stations: Sequence[float], sections: Sequence[dict[str, Any]]) -> None:
    there = {one.get("x_mm") for one in sections if one.get("bay") == bay}
    taken = [f"{one:g}" for one in stations if one in there]
    if taken:
        raise MeshError(f"the bay {bay} already has a section at station {listed(taken)}: take "
                        "that out first, or give other stations")


def _refuse_nothing(corners: Floats, what: MeshImport, stations: Sequence[float],
                    cut: Sequence[float]) -> None:
    missing = [one for one in stations if round(float(one), 3) not in cut]
    if not missing:
        return
    x = corners[:, :, 0] + what.shift_x_mm
    low, high = x.min(), x.max()
    where = f"there is nothing at station {listed(f'{one:g}' for one in missing)}"
    if all(low < one < high for one in missing):
        raise MeshError(f"{where} once {what.skin_mm:g} mm of skin are off")
    raise MeshError(f"{where}: the mesh reaches from x {low:.0f} to {high:.0f}")
