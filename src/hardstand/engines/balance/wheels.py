"""What the wheels carry, and how near the aeroplane is to tipping over them, in every state.

Three wheels, nose or tail wheel first, on the ground they stand on; the ground's slope in the
aeroplane's axes follows from the three contact points. Static, tyres and legs not yielding.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
STEP_MM = 0.5  # for slopes by differences: these figures are smooth over it to nine digits


@dataclass(frozen=True, eq=False)
class WheelFigures:
    """Figures of S states on three wheels.

    Attributes: load_share (S, 3), each wheel's part of the weight, negative where it would lift;
    height_mm (S,), of the CG above the ground; tip_back_deg (S,), how far the nose may rise before
    the CG is over the main wheels, negative when it already is behind them; overturn_deg (S,), the
    larger of the two sides: the smaller the steadier.
    """

    load_share: Floats
    height_mm: Floats
    tip_back_deg: Floats
    overturn_deg: Floats

    @property
    def nose_share(self) -> Floats:
        """The first wheel's part of the weight (S,)."""
        return self.load_share[:, 0]


def _dot(one: Floats, other: Floats) -> Floats:
    return np.asarray(one[..., 0] * other[..., 0] + one[..., 1] * other[..., 1] + one[..., 2] * other[..., 2])


def _length(vector: Floats) -> Floats:
    return np.asarray(np.sqrt(_dot(vector, vector)))


def _cross(one: Floats, other: Floats) -> Floats:
    (a, b, c), (x, y, z) = np.moveaxis(one, -1, 0), np.moveaxis(other, -1, 0)
    return np.stack([b * z - c * y, c * x - a * z, a * y - b * x], axis=-1)


def _grounds(contact: Floats) -> tuple[Floats, Floats]:
    """Return the ground's unit normal upward and the unit direction aft along it, (V, 3) each."""
    nose, left, right = contact[:, 0], contact[:, 1], contact[:, 2]
    normal = _cross(left - nose, right - nose)
    size = _length(normal)
    if np.any(size < 1e-6) or np.any(np.abs(normal[:, 2]) < 0.1 * size):
        raise ValueError("the three wheels must stand on the ground at three corners")
    normal = normal * (np.sign(normal[:, 2]) / size)[:, None]
    # Aft is square to the line that joins the two main wheels.
    aft = _cross(right - left, normal)
    aft = aft * (np.sign(aft[:, 0]) / _length(aft))[:, None]
    return normal, aft


def wheel_figures(cg_mm: ArrayLike, contact_mm: ArrayLike) -> WheelFigures:
    """Find loads, tip-back and overturn angle of every state.

    Tip-back: atan(distance of the CG ahead of the main wheels' line / its height). Overturn: in the
    upright plane through the CG square to the line from the nose wheel to one main wheel, atan(CG
    height / distance of the CG from that line). Source of both definitions: D. P. Raymer, Aircraft
    Design: A Conceptual Approach, landing-gear chapter, value from memory.

    Parameters: cg_mm (S, 3); contact_mm (3, 3), where the first (nose) wheel and the two main
    wheels touch the ground. Returns `WheelFigures`. Raises ValueError when the contact points don't
    make a triangle on the ground, or a CG isn't above it.

    >>> found = wheel_figures([[1040, 0, 320]], [[200, 0, 0], [1150, -310, 0], [1150, 310, 0]])
    >>> found.nose_share.round(4).tolist(), found.tip_back_deg.round(2).tolist()
    ([0.1158], [18.97])
    """
    cg = np.atleast_2d(np.asarray(cg_mm, dtype=np.float64))
    contact = np.asarray(contact_mm, dtype=np.float64)
    return WheelFigures(*(one[0] for one in wheel_arrays(cg[None], contact[None])))


def wheel_arrays(cg_mm: Floats, contact_mm: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    """The same for V variants at once: load shares (V, S, 3), and height, tip-back, overturn (V, S).

    Parameters: cg_mm (V, S, 3), contact_mm (V, 3, 3). Raises ValueError as `wheel_figures` does, where
    any variant is one that cannot stand.
    """
    normal, aft = _grounds(contact_mm)
    nose = contact_mm[:, None, 0]
    height = _dot(cg_mm - nose, normal[:, None])
    if np.any(~(height > 0.0)):
        raise ValueError("the CG must be above the ground")
    foot = cg_mm - height[..., None] * normal[:, None]
    # Shares: forces along the normal whose sum is 1 and whose centre is the foot of the CG.
    side = _cross(normal, aft)
    ones = np.ones((len(contact_mm), 3))
    plan = np.stack([ones, _dot(contact_mm, aft[:, None]), _dot(contact_mm, side[:, None])], axis=1)
    along, sideways = _dot(foot, aft[:, None]), _dot(foot, side[:, None])
    wanted = np.stack([np.ones_like(along), along, sideways], axis=1)
    share = np.swapaxes(np.linalg.solve(plan, wanted), 1, 2)
    ahead = _dot(contact_mm[:, 1], aft)[:, None] - along
    overturn = np.zeros_like(height)
    for main in (contact_mm[:, 1], contact_mm[:, 2]):
        line = main - contact_mm[:, 0]
        off = _cross(normal, line / _length(line)[:, None])
        middle = contact_mm[:, 1:].mean(axis=1) - contact_mm[:, 0]
        distance = _dot(foot - nose, off[:, None]) * np.sign(_dot(middle, off))[:, None]
        overturn = np.maximum(overturn, np.degrees(np.arctan2(height, distance)))
    return share, height, np.degrees(np.arctan2(ahead, height)), overturn


def tail_strike_deg(tail_mm: ArrayLike, contact_mm: ArrayLike) -> float:
    """Return how far the nose can rise about the main wheels before the tail touches, degrees.

    The lowest of several points is found here. Rolling of the tyre about its own axle while the
    nose rises is left out, as in the textbook definition. Parameters: tail_mm (K, 3), points of the
    tail, nozzle or ventral fin; contact_mm as in `wheel_figures`. Raises ValueError when no point
    lies behind the main wheels.

    >>> round(tail_strike_deg([[2200, 0, 200]], [[200, 0, 0], [1150, -310, 0], [1150, 310, 0]]), 2)
    10.78
    """
    tail = np.atleast_2d(np.asarray(tail_mm, dtype=np.float64))
    contact = np.asarray(contact_mm, dtype=np.float64)
    angle, behind = strike_arrays(tail, np.broadcast_to(contact, (len(tail), 3, 3)))
    if not np.any(behind > 0.0):
        raise ValueError("no point of the tail lies behind the main wheels")
    return float(np.min(angle[behind > 0.0]))


def strike_arrays(tail_mm: Floats, contact_mm: Floats) -> tuple[Floats, Floats]:
    """The angle of `tail_strike_deg` and how far behind the main wheels, (V,) each, of V variants.

    Parameters: tail_mm (V, 3), one point each; contact_mm (V, 3, 3).
    """
    normal, aft = _grounds(contact_mm)
    off = tail_mm - contact_mm[:, 1]
    behind = _dot(off, aft)
    return np.degrees(np.arctan2(_dot(off, normal), behind)), behind


def braking_nose_load_n(
    mass_g: ArrayLike, height_mm: ArrayLike, wheelbase_mm: ArrayLike, deceleration_m_s2: ArrayLike
) -> Floats:
    """Return the load that braking adds to the nose wheel: m a h / B, newton; arrays broadcast.

    Parameters: mass_g; height_mm of the CG above the ground; wheelbase_mm > 0, nose to mains;
    deceleration_m_s2 (3 m/s2 is a firm stop, common practice).

    >>> braking_nose_load_n(24983.0, 320.0, 950.0, 0.3 * 9.80665).round(2).item()
    24.76
    """
    mass_kg = np.asarray(mass_g, dtype=np.float64) * 1e-3
    ratio = np.asarray(height_mm, dtype=np.float64) / np.asarray(wheelbase_mm, dtype=np.float64)
    return np.asarray(mass_kg * np.asarray(deceleration_m_s2) * ratio, dtype=np.float64)
