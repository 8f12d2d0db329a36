"""The flow a body feels between its wing's upwash and downwash, and the range it gives."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hardstand.engines.balance.fuselage import body_moment_mm3, check_body
from hardstand.engines.balance.horseshoe import crossflow
from hardstand.engines.balance.lattice_model import Lattice
from hardstand.engines.balance.lattice_strips import Surface

Array = NDArray[np.float64]

# What section shape, intakes and an open tail may change, as a share of the moment: an assumption,
# common practice, no source.
SHAPE_U = 0.15
_SPACING_MM = 10.0


@dataclass(frozen=True, slots=True)
class BodyMoment:
    """Nose-up moment slope of the body over dynamic pressure, per radian, with its uncertainty.

    `value_mm3`, standard uncertainty `u_mm3`; `alone_mm3` is the body in the undisturbed stream and
    `in_wing_flow_mm3` the body in the wing's flow, the two limits the value lies between.
    """

    value_mm3: float
    u_mm3: float
    alone_mm3: float
    in_wing_flow_mm3: float


def flow_along_body(
    flow: Lattice, wing: Surface, station_mm: ArrayLike, z_mm: ArrayLike = 0.0
) -> Array:
    """Return the flow angle per angle of attack at stations on the centreline.

    Above one ahead of the wing (upwash), zero along the wing's chord, where the wing turns the
    stream parallel to itself, and between zero and one behind it (downwash). Only the first
    surface of the lattice, the wing, is felt.

    Parameters: `flow` solved with `wing` as first surface; `station_mm` (n); `z_mm` (n) or one
    height of the body's axis.

    Returns (n), no unit.

    Example (ahead of the wing, on it, behind it):

    >>> from hardstand.engines.balance.panel import Panel, Section
    >>> from hardstand.engines.balance.lattice import solve_lattice
    >>> wing = [Panel(Section(980, 0, 0, 560), Section(1500, 1000, 0, 200))]
    >>> angle = flow_along_body(solve_lattice([wing]), wing, [500.0, 1200.0, 2100.0], 60.0)
    >>> angle.round(1).tolist()
    [1.1, 0.0, 0.5]

    Source: H. Multhopp, NACA Technical Memorandum 1036 (1942), for the three regions (from memory);
    here the upwash comes from the lattice rather than from his curve.
    """
    boxes = flow.boxes
    of_wing = boxes.surface == 0
    start, end = boxes.start[of_wing], boxes.end[of_wing]
    station = np.atleast_1d(np.asarray(station_mm, dtype=float))
    height = np.broadcast_to(np.asarray(z_mm, dtype=float), station.shape)
    points = np.stack([station, np.zeros_like(station), height], axis=1)
    _, up = crossflow(points, start, end)
    sides = 2.0 if flow.half_model else 1.0  # on the centreline both halves lift the air alike
    angle = 1.0 + sides * up @ flow.circulation_mm[of_wing]
    root = min((panel.root for panel in wing), key=lambda section: abs(section.y_mm))
    ahead, behind = station < root.x_mm, station > root.x_mm + root.chord_mm
    return np.where(ahead | behind, angle, 0.0)


def body_moment(
    flow: Lattice,
    wing: Surface,
    station_mm: ArrayLike,
    width_mm: ArrayLike,
    z_mm: float = 0.0,
    shape_u: float = SHAPE_U,
) -> BodyMoment:
    """Bound a body's moment slope in two ways and take it as uniform between them.

    One bound is the body alone (Munk), which leaves out the downwash on the tail end and is mostly
    too large; the other the body in the wing's flow (Multhopp), which leaves out what the body does
    to the wing. The value is their mean; the standard uncertainty joins a uniform spread between
    them with `shape_u`, a share of the value for what neither covers.

    Parameters: `flow` solved with `wing` as first surface; `station_mm`, `width_mm` (n) from nose
    to tail, straight lines between; `z_mm` height of the body's axis.

    Returns `BodyMoment`. Raises `ValueError` as `fuselage.body_moment_mm3`.

    Example (a body pointed at both ends):

    >>> from hardstand.engines.balance.panel import Panel, Section
    >>> from hardstand.engines.balance.lattice import solve_lattice
    >>> wing = [Panel(Section(980, 0, 0, 560), Section(1500, 1000, 0, 200))]
    >>> body = body_moment(solve_lattice([wing]), wing, [0, 1000, 2300], [0, 250, 0])
    >>> 0.0 < body.in_wing_flow_mm3 < body.value_mm3 < body.alone_mm3
    True

    Source: common practice, no source, for the two bounds.
    """
    station, width = check_body(station_mm, width_mm)
    length = float(station[-1] - station[0])
    fine = np.union1d(station, np.linspace(station[0], station[-1], int(length / _SPACING_MM) + 2))
    fine_width = np.interp(fine, station, width)
    alone = body_moment_mm3(fine, fine_width)
    within = body_moment_mm3(fine, fine_width, flow_along_body(flow, wing, fine, z_mm))
    value = 0.5 * (alone + within)
    spread = abs(alone - within) / math.sqrt(12.0)
    return BodyMoment(value, math.hypot(spread, shape_u * value), alone, within)
