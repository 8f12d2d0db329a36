"""What the wheels carry, and how near the aeroplane is to tipping over them, in every state.

Three wheels, nose or tail wheel first, on the ground they stand on; the ground's slope in the
aeroplane's axes follows from the three contact points. Static, tyres and legs not yielding.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


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


def _ground(contact: Floats) -> tuple[Floats, Floats]:
    """Return the ground's unit normal upward and the unit direction aft along it, (3,) each."""
    nose, left, right = contact
    normal = np.cross(left - nose, right - nose)
    size = float(np.linalg.norm(normal))
    if size < 1e-6 or abs(normal[2]) < 0.1 * size:
        raise ValueError("the three wheels must stand on the ground at three corners")
    normal *= np.sign(normal[2]) / size
    # Aft is square to the line that joins the two main wheels.
    axle = right - left
    aft = np.cross(axle, normal)
    aft *= np.sign(aft[0]) / np.linalg.norm(aft)
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
    normal, aft = _ground(contact)
    height = (cg - contact[0]) @ normal
    if np.any(~(height > 0.0)):
        raise ValueError("the CG must be above the ground")
    foot = cg - height[:, None] * normal
    # Shares: forces along the normal whose sum is 1 and whose centre is the foot of the CG.
    side = np.cross(normal, aft)
    plan = np.stack([np.ones(3), contact @ aft, contact @ side])
    wanted = np.stack([np.ones(len(cg)), foot @ aft, foot @ side])
    share = np.linalg.solve(plan, wanted).T
    ahead = contact[1] @ aft - foot @ aft
    overturn = np.zeros(len(cg))
    for main in contact[1:]:
        line = (main - contact[0]) / np.linalg.norm(main - contact[0])
        inside = np.sign((contact[1:].mean(axis=0) - contact[0]) @ np.cross(normal, line))
        distance = (foot - contact[0]) @ np.cross(normal, line) * inside
        overturn = np.maximum(overturn, np.degrees(np.arctan2(height, distance)))
    return WheelFigures(share, height, np.degrees(np.arctan2(ahead, height)), overturn)


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
    normal, aft = _ground(contact)
    behind = (tail - contact[1]) @ aft
    if not np.any(behind > 0.0):
        raise ValueError("no point of the tail lies behind the main wheels")
    height = (tail - contact[1]) @ normal
    angle = np.degrees(np.arctan2(height, behind))
    return float(np.min(angle[behind > 0.0]))


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
