"""A fuselage mesh sliced into the inside sections of a bay, as rows to add to the description."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.changes import AddRow

Floats = NDArray[np.float64]
SIMPLIFIED_MM = 0.2  # corners nearer than this to a straight line between others are left out
_FEWEST = 3


class MeshError(ValueError):
    """A mesh that cannot be read, or that gives no section where one was asked for."""


def mesh_sections(
    path: Path,
    stations_mm: Sequence[float],
    bay: str = "fuselage",
    *,
    skin_mm: float = 2.0,
    scale: float = 1.0,
    shift_mm: Sequence[float] = (0.0, 0.0, 0.0),
    tol_mm: float | None = None,
) -> list[AddRow]:
    """Rows of `[[section]]` for a bay, one for each station at which the mesh has a closed outline.

    The mesh (STL) lies with x aft, y to starboard, z up once scaled by `scale` (25.4 for inches) and
    shifted by `shift_mm`; its surface is the outside of the skin, which is `skin_mm` thick, so the
    section is the largest outline at the station drawn in by that much. An outline is thinned to
    points that keep within 0.2 mm of it, and then drawn in by as much again, so that it never lies
    outside the true inside. `stations_mm` are x in the aeroplane's axes; stations beside the mesh are
    passed over.

    Returns the rows in the order of their stations. Raises MeshError where the file is no mesh, a
    number is out of range, or no station meets the mesh. Source: common practice, no source.
    """
    if not scale > 0.0 or not skin_mm >= 0.0:
        raise MeshError("the scale must be above 0, and the skin's thickness not below 0")
    triangles = triangles_of(path) * scale + np.asarray(shift_mm, dtype=np.float64)
    rows = []
    for station in sorted({round(float(one), 3) for one in stations_mm}):
        outline = inside_outline(triangles, station, skin_mm)
        if outline is not None:
            rows.append(AddRow("section", _row(bay, station, outline, tol_mm)))
    if not rows:
        low, high = triangles[:, :, 0].min(), triangles[:, :, 0].max()
        if any(low < one < high for one in stations_mm):
            raise MeshError(f"nothing of the mesh is left where it is cut once {skin_mm:g} mm of skin are off")
        raise MeshError(f"no station meets the mesh, which reaches from x {low:.0f} to {high:.0f}")
    return rows


def even_stations(
    path: Path, count: int, scale: float = 1.0, shift_x_mm: float = 0.0
) -> list[float]:
    """So many stations in whole mm, evenly over the length of a mesh and 1 % within its ends."""
    x = triangles_of(path)[:, :, 0] * scale + shift_x_mm
    inset = 0.01 * (x.max() - x.min())
    return [round(float(one)) for one in np.linspace(x.min() + inset, x.max() - inset, count)]


def triangles_of(path: Path) -> Floats:
    """The corners (T, 3, 3) of a mesh's triangles as they stand in the file; raises MeshError."""
    import trimesh

    try:
        mesh = trimesh.load_mesh(path, file_type="stl", process=False)
        triangles = np.asarray(mesh.triangles, dtype=np.float64)
    except (OSError, ValueError, AttributeError, KeyError, IndexError, TypeError) as error:
        raise MeshError(f"{path.name} cannot be read as a mesh (STL): {error}") from error
    if triangles.ndim != _FEWEST or not len(triangles) or not np.isfinite(triangles).all():
        raise MeshError(f"{path.name} holds no triangles of a mesh; is it STL?")
    return triangles


def inside_outline(triangles_mm: Floats, x_mm: float, skin_mm: float) -> Floats | None:
    """The outline (V, 2) in y and z of the inside at a station; None where there is none.

    >>> import trimesh
    >>> tube = trimesh.creation.box(extents=(100.0, 60.0, 40.0)).triangles
    >>> inside_outline(tube, 10.0, 2.0).max(axis=0).round(1).tolist()
    [28.0, 18.0]
    """
    import shapely

    cuts = _cuts(triangles_mm, x_mm)
    # Corners of neighbouring triangles come out alike but for rounding.
    lines: Any = shapely.set_precision(shapely.linestrings(cuts), 1e-4)
    loops: Any = shapely.polygonize(list(lines[~shapely.is_empty(lines)])).geoms
    outer = [shapely.Polygon(loop.exterior) for loop in loops]
    if not outer:
        return None
    whole: Any = max(shapely.get_parts(shapely.unary_union(outer)), key=lambda one: one.area)
    inside = shapely.Polygon(whole.exterior).buffer(-skin_mm, join_style="mitre")
    if inside.is_empty:
        return None
    inside = max(shapely.get_parts(inside), key=lambda one: one.area)
    thin = inside.simplify(SIMPLIFIED_MM)
    if thin.exterior.hausdorff_distance(inside.exterior) > 1e-3:
        thin = thin.buffer(-SIMPLIFIED_MM, join_style="mitre")
    if thin.geom_type != "Polygon" or thin.is_empty:
        return None
    return np.asarray(shapely.get_coordinates(thin.exterior), dtype=np.float64)[:-1]


def _cuts(triangles: Floats, x_mm: float) -> Floats:
    """Where triangles pass a station: lines (L, 2, 2) in y and z.

    A corner exactly at the station counts as behind it, so each triangle has two crossings or none.
    """
    ahead = triangles[:, :, 0] < x_mm
    some = ahead.any(axis=1) & ~ahead.all(axis=1)
    found = triangles[some]
    start, end = found, np.roll(found, -1, axis=1)
    crosses = ahead[some] != np.roll(ahead[some], -1, axis=1)
    run = np.where(crosses, end[:, :, 0] - start[:, :, 0], 1.0)
    share = ((x_mm - start[:, :, 0]) / run)[:, :, None]
    points = start[:, :, 1:] + share * (end - start)[:, :, 1:]
    return np.asarray(points[crosses].reshape(-1, 2, 2))


def _row(bay: str, x_mm: float, outline: Floats, tol_mm: float | None) -> dict[str, Any]:
    row: dict[str, Any] = {"id": f"{bay}-{x_mm:g}".replace(".", "-"), "bay": bay, "x_mm": x_mm}
    row["outline_mm"] = [[round(float(y), 2), round(float(z), 2)] for y, z in outline]
    if tol_mm is not None:
        row["tol_mm"] = tol_mm
    return row
