"""Mass, CG and inertia of S states of N masses, and how each of them moves with every input."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
KGM2_PER_G_MM2 = 1e-9


@dataclass(frozen=True, eq=False)
class RollUp:
    """What S states weigh and where.

    Attributes: mass_g (S,); cg_mm (S, 3); inertia_kgm2 (S, 3, 3), about the CG, axes parallel to
    the aeroplane's (x aft, y starboard, z up). Its diagonal holds Ixx, Iyy, Izz; off the diagonal
    stand the products with a minus.
    """

    mass_g: Floats
    cg_mm: Floats
    inertia_kgm2: Floats

    @property
    def product_xz_kgm2(self) -> Floats:
        """The integral of x z over the mass about the CG (S,), positive with mass aft and high.

        With x forward and z down instead, both factors turn round, so that xz keeps its sign, while
        xy and yz turn theirs.
        """
        return -self.inertia_kgm2[:, 0, 2]


def _check(present: Floats, mass_g: Floats) -> Floats:
    """Return total masses (S,), or raise when a state weighs nothing."""
    total = np.sum(present * mass_g, axis=-1)
    empty = np.flatnonzero(~(total > 0.0))
    if empty.size:
        raise ValueError(f"states {empty.tolist()} weigh nothing, so they have no CG")
    return np.asarray(total, dtype=np.float64)


def roll_up(
    mass_g: ArrayLike,
    at_mm: ArrayLike,
    present: ArrayLike,
    own_inertia_kgm2: ArrayLike | None = None,
) -> RollUp:
    """Add up the masses of every state: M = sum m, CG = sum m r / M, inertia by parallel axes.

    Parameters: mass_g (N,) or (S, N) where it differs by state (fuel); at_mm (N, 3) or (S, N, 3)
    where it does (legs, fuel); present (S, N), 1 or True where the mass is on board, or a share;
    own_inertia_kgm2 (N, 3, 3) or (S, N, 3, 3) about each mass's own centre, products with a minus
    (none: points). Returns `RollUp`. Raises ValueError for a state that weighs nothing.

    >>> two = roll_up([1000.0, 1000.0], [[0, 0, 0], [2000, 0, 0]], [[1, 1]])
    >>> two.cg_mm.tolist(), two.inertia_kgm2[0].diagonal().tolist()
    ([[1000.0, 0.0, 0.0]], [0.0, 2.0, 2.0])
    """
    share = np.atleast_2d(np.asarray(present, dtype=np.float64))
    place = np.asarray(at_mm, dtype=np.float64)
    mass = share * np.asarray(mass_g, dtype=np.float64)
    total = _check(share, np.asarray(mass_g, dtype=np.float64))
    place = np.broadcast_to(place, (*mass.shape, 3))
    cg = np.einsum("sn,sni->si", mass, place) / total[:, None]
    offset = place - cg[:, None, :]
    second = np.swapaxes(offset * mass[..., None], -1, -2) @ offset * KGM2_PER_G_MM2
    trace = np.trace(second, axis1=-2, axis2=-1)
    inertia = trace[:, None, None] * np.eye(3) - second
    if own_inertia_kgm2 is not None:
        own = np.asarray(own_inertia_kgm2, dtype=np.float64)
        own = np.broadcast_to(own, (*mass.shape, 3, 3))
        inertia = inertia + np.einsum("sn,snij->sij", share, own)
    return RollUp(total, cg, inertia)


@dataclass(frozen=True, eq=False)
class BalanceSensitivity:
    """How mass and CG of S states move per unit of each of N masses' own figures.

    Attributes: mass_by_mass (S, N), g per g; cg_by_mass_mm_per_g (S, N, 3); cg_by_place (S, N), mm
    per mm, the same along each axis, without effect across axes.
    """

    mass_by_mass: Floats
    cg_by_mass_mm_per_g: Floats
    cg_by_place: Floats

    def matrix(self) -> Floats:
        """Return one matrix (S, 4, 4 N).

        Rows: mass, cg x, cg y, cg z. Columns: all masses, then all x, all y, all z.
        """
        states, count = self.mass_by_mass.shape
        result = np.zeros((states, 4, 4 * count))
        result[:, 0, :count] = self.mass_by_mass
        for axis in range(3):
            result[:, 1 + axis, :count] = self.cg_by_mass_mm_per_g[..., axis]
            start = (1 + axis) * count
            result[:, 1 + axis, start : start + count] = self.cg_by_place
        return result


def sensitivity(mass_g: ArrayLike, at_mm: ArrayLike, present: ArrayLike) -> BalanceSensitivity:
    """Differentiate mass and CG: d cg / d m_i = (r_i - cg) / M, d cg / d r_i = m_i / M.

    Parameters and errors as `roll_up`. Where a mass or place differs by state, the derivative is by
    that state's own value. Returns `BalanceSensitivity`.

    >>> slope = sensitivity([3000.0, 1000.0], [[0, 0, 0], [400, 0, 0]], [[1, 1]])
    >>> slope.cg_by_mass_mm_per_g[0, :, 0].tolist(), slope.cg_by_place.tolist()
    ([-0.025, 0.075], [[0.75, 0.25]])
    """
    state = roll_up(mass_g, at_mm, present)
    share = np.atleast_2d(np.asarray(present, dtype=np.float64))
    offset = np.asarray(at_mm, dtype=np.float64) - state.cg_mm[:, None, :]
    by_mass = share[..., None] * offset / state.mass_g[:, None, None]
    by_place = share * np.asarray(mass_g, dtype=np.float64) / state.mass_g[:, None]
    return BalanceSensitivity(share.copy(), by_mass, by_place)
