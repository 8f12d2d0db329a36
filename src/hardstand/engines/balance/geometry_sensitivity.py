"""How far the neutral point moves when a measured dimension is wrong."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from hardstand.engines.balance.lattice_strips import Mesh, Surface
from hardstand.engines.balance.neutral_point import neutral_point
from hardstand.engines.balance.neutral_point_model import Tail
from hardstand.engines.balance.panel import Panel, Section

Change = Callable[[Section], Section]


@dataclass(frozen=True, slots=True)
class GeometrySensitivity:
    """Movement of the neutral point's station, mm per mm of each dimension (no unit).

    `wing_station` and `tail_station`: that surface as a whole further aft; `tail_height`: the tail
    higher; `wing_chord` and `tail_chord`: every chord longer at a fixed leading edge;
    `wing_tip_station`: the wing's outer end further aft, sweep in proportion.
    """

    wing_station: float
    tail_station: float
    tail_height: float
    wing_chord: float
    tail_chord: float
    wing_tip_station: float


def _moved(panels: Surface, change: Change) -> tuple[Panel, ...]:
    """Return the panels with every section changed."""
    return tuple(replace(panel, root=change(panel.root), tip=change(panel.tip)) for panel in panels)


def geometry_sensitivity(
    wing: Surface, tail: Tail, mesh: Mesh | None = None, step_mm: float = 5.0
) -> GeometrySensitivity:
    """Differentiate the station of the neutral point by central differences.

    The changes keep every y where it is, so that the mesh keeps its strips and the differences are
    smooth. The body's moment is left out: it hardly depends on these.

    Parameters: `wing`, `tail` as for `neutral_point`; `mesh`; `step_mm` small against the chords.

    Returns `GeometrySensitivity`; the tail's are zero for a tailless aeroplane.

    Example (a wing alone takes its neutral point along):

    >>> alone = [Panel(Section(0, 0, 0, 300), Section(0, 1000, 0, 300))]
    >>> round(geometry_sensitivity(alone, Tail(), Mesh(4, 2)).wing_station, 6)
    1.0

    Source: common practice, no source.
    """
    widest = max(abs(panel.tip.y_mm) for panel in wing)

    def station(wing_now: Surface, tail_now: Surface) -> float:
        return neutral_point(wing_now, replace(tail, panels=tuple(tail_now)), mesh=mesh).x_mm

    def slope(change: Callable[[float], Change], of_wing: bool) -> float:
        places = [
            station(
                _moved(wing, change(step)) if of_wing else wing,
                tail.panels if of_wing else _moved(tail.panels, change(step)),
            )
            for step in (-step_mm, step_mm)
        ]
        return (places[1] - places[0]) / (2.0 * step_mm)

    def aft(step: float) -> Change:
        return lambda section: replace(section, x_mm=section.x_mm + step)

    def up(step: float) -> Change:
        return lambda section: replace(section, z_mm=section.z_mm + step)

    def longer(step: float) -> Change:
        return lambda section: replace(section, chord_mm=section.chord_mm + step)

    def swept(step: float) -> Change:
        return lambda section: replace(
            section, x_mm=section.x_mm + step * abs(section.y_mm) / widest
        )

    return GeometrySensitivity(
        wing_station=slope(aft, True),
        tail_station=slope(aft, False),
        tail_height=slope(up, False),
        wing_chord=slope(longer, True),
        tail_chord=slope(longer, False),
        wing_tip_station=slope(swept, True),
    )
