"""Cut lifting surfaces into the boxes of a vortex lattice."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.balance.lattice_strips import Mesh, Surface, strip_places
from hardstand.engines.balance.panel import Panel

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Boxes:
    """One horseshoe vortex and one control point for each box.

    `start`, `end`, `control`, `normal` are (n, 3) in mm (normals of length one); bound vortices
    run towards starboard. `surface` (n) and `strip` (n) number the surface and the strip.
    """

    start: Array
    end: Array
    control: Array
    normal: Array
    surface: NDArray[np.int64]
    strip: NDArray[np.int64]


def _cut(panel: Panel, places: tuple[Array, Array], chordwise: int) -> tuple[Array, ...]:
    """Return start, end, control and normal of one panel, each (strips, chordwise, 3)."""
    inner, outer = abs(panel.root.y_mm), abs(panel.tip.y_mm)
    root, tip = (
        np.array([[end.x_mm, end.y_mm, end.z_mm, end.chord_mm]]) for end in (panel.root, panel.tip)
    )

    def sections(distances: Array) -> Array:
        """Return x, y, z and chord of this panel at those distances, from port to starboard."""
        within = distances[(distances > inner - 1e-5) & (distances < outer + 1e-5)]
        line: Array = root + ((within - inner) / (outer - inner))[:, None] * (tip - root)
        return line if panel.tip.y_mm > 0.0 else line[::-1]

    def along(line: Array, quarters: float) -> Array:
        """Return the points so many quarters down every box of those sections."""
        points: Array = np.repeat(line[:, None, :3], chordwise, axis=1)
        points[..., 0] += line[:, 3:4] * (np.arange(chordwise) + 0.25 * quarters) / chordwise
        return points

    cuts, middles = sections(places[0]), sections(places[1])
    across = cuts[1:, :3] - cuts[:-1, :3]
    normal = np.stack([np.zeros(len(across)), -across[:, 2], across[:, 1]], axis=1)
    normal /= np.hypot(across[:, 1], across[:, 2])[:, None]
    normals = np.repeat(normal[:, None, :], chordwise, axis=1)
    return along(cuts[:-1], 1.0), along(cuts[1:], 1.0), along(middles, 3.0), normals


def cut_into_boxes(surfaces: Sequence[Surface], mesh: Mesh) -> Boxes:
    """Cut every panel as given (the mirrored halves are left to the solver).

    Bound vortices lie a quarter down each box and control points three quarters: with any number of
    equal boxes a flat plate in plane flow then has exactly the lift and the moment of thin-aerofoil
    theory.

    Parameters: `surfaces`, each a sequence of panels; `mesh`.

    Example (one box on each half of a square: vortex at 25 mm, control point at 75 mm):

    >>> from hardstand.engines.balance.panel import Section
    >>> wing = [Panel(Section(0, 0, 0, 100), Section(0, 50, 0, 100))]
    >>> boxes = cut_into_boxes([wing], Mesh(1, 1))
    >>> boxes.start.tolist(), boxes.control.tolist()
    ([[25.0, 0.0, 0.0]], [[75.0, 25.0, 0.0]])

    Returns `Boxes`, strip by strip, from each from front to back.

    Source of the quarter and three-quarter places: E. Pistolesi, after J. Katz and A. Plotkin,
    Low-Speed Aerodynamics (value from memory).
    """
    places = strip_places(surfaces, mesh)
    pieces: list[tuple[Array, ...]] = []
    surface_of: list[NDArray[np.int64]] = []
    for number, surface in enumerate(surfaces):
        for panel in surface:
            pieces.append(_cut(panel, places, mesh.chordwise))
            surface_of.append(np.full(len(pieces[-1][0]), number))
    strips = np.concatenate(surface_of)
    flat = [np.concatenate(parts).reshape(-1, 3) for parts in zip(*pieces, strict=True)]
    return Boxes(
        start=flat[0],
        end=flat[1],
        control=flat[2],
        normal=flat[3],
        surface=np.repeat(strips, mesh.chordwise),
        strip=np.repeat(np.arange(len(strips)), mesh.chordwise),
    )
