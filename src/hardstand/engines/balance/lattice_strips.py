"""Where the strips of a vortex lattice lie along the span."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.balance.panel import Panel

Array = NDArray[np.float64]
Surface = Sequence[Panel]


@dataclass(frozen=True, slots=True)
class Mesh:
    """How finely a half-model is cut.

    `spanwise` strips from the centreline to the widest tip, `chordwise` boxes on every strip, and
    `spacing` of strips within each stretch between two edges:

    - "cosine": strip edges at equal steps of an angle, narrow at roots, cranks and tips, and
      control points at the middle of the step in angle. The square root with which loading falls to
      a tip is then met almost exactly and the results hardly change with the number of strips.
    - "uniform": equal strips, control points in their middle: the lattice of the textbooks, for
      comparison with published numbers. It sees tips too wide by about a quarter strip, so its lift
      slope is high and falls slowly as the mesh is refined.

    Source of the cosine rule: C. E. Lan, A Quasi-Vortex-Lattice Method in Thin Wing Theory, Journal
    of Aircraft 11 (1974) (from memory).
    """

    spanwise: int = 16
    chordwise: int = 8
    spacing: Literal["cosine", "uniform"] = "cosine"

    def __post_init__(self) -> None:
        """Refuse a mesh without boxes."""
        if self.spanwise < 1 or self.chordwise < 1:
            raise ValueError("a mesh needs at least one strip and one box along the chord")

    def shares(self, strips: int) -> tuple[Array, Array]:
        """Return where a stretch of length one is cut, and where its control points lie.

        >>> cuts, controls = Mesh(spacing="uniform").shares(2)
        >>> cuts.tolist(), controls.tolist()
        ([0.0, 0.5, 1.0], [0.25, 0.75])
        """
        cuts = np.linspace(0.0, 1.0, strips + 1)
        controls = 0.5 * (cuts[:-1] + cuts[1:])
        if self.spacing == "uniform":
            return cuts, controls
        return 0.5 * (1.0 - np.cos(np.pi * cuts)), 0.5 * (1.0 - np.cos(np.pi * controls))


def strip_places(surfaces: Sequence[Surface], mesh: Mesh) -> tuple[Array, Array]:
    """Return the distances from the centreline, mm, of strip edges and of control points.

    One set of strips serves every surface: the trailing vortices of the one in front then pass well
    between the control points of the one behind, however close in height the two are. Every root,
    crank and tip is an edge; the strips are shared out over the stretches by width.

    Returns edges (n + 1) and control points (n).

    >>> from hardstand.engines.balance.panel import Section
    >>> wing = [Panel(Section(0, 0, 0, 300), Section(0, 1000, 0, 300))]
    >>> strip_places([wing], Mesh(spanwise=4, spacing="uniform"))[0].tolist()
    [0.0, 250.0, 500.0, 750.0, 1000.0]
    """
    ends = {
        round(abs(section.y_mm), 6)
        for surface in surfaces
        for panel in surface
        for section in (panel.root, panel.tip)
    }
    stretches = sorted(ends)
    width = (stretches[-1] - stretches[0]) / mesh.spanwise
    edges = [stretches[:1]]
    controls: list[list[float]] = []
    for inner, outer in pairwise(stretches):
        cuts, middles = mesh.shares(max(1, round((outer - inner) / width)))
        edges.append((inner + (outer - inner) * cuts[1:]).tolist())
        controls.append((inner + (outer - inner) * middles).tolist())
    return np.concatenate(edges), np.concatenate(controls)
