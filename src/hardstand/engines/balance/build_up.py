"""The build-up as a prior, and what was measured about it, in one linear form.

The unknowns are every item's mass, x and y: theta = (m_1..m_N, x_1..x_N, y_1..y_N). A weigh-in
measures M, M x and M y, which are linear in theta but for the products of two small errors (5 g by
2 mm: 10 g mm against 20 000 g mm of a good weighing); they are taken about the build-up's CG.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class BuildUp:
    """What is believed of N items before weighing the aeroplane.

    Attributes: mass_g (N,); at_mm (N, 2), x and y; covariance (3 N, 3 N) of all masses, all x, all
    y, in g and mm.
    """

    mass_g: Floats
    at_mm: Floats
    covariance: Floats

    @property
    def total_g(self) -> float:
        """The sum of the masses, g."""
        return float(self.mass_g.sum())

    @property
    def cg_mm(self) -> Floats:
        """The CG (2,), x and y, mm."""
        return np.asarray(self.mass_g @ self.at_mm / self.mass_g.sum(), dtype=np.float64)

    @property
    def u(self) -> Floats:
        """Standard uncertainties of theta (3 N,), g and mm."""
        return np.asarray(np.sqrt(np.diag(self.covariance)), dtype=np.float64)


@dataclass(frozen=True, eq=False)
class Observations:
    """K measured values against the build-up.

    Attributes: residual (K,), measured less build-up; matrix (K, 3 N), their derivatives by theta;
    covariance (K, K). Rows of a mass are in g, of a moment in g mm.
    """

    residual: Floats
    matrix: Floats
    covariance: Floats


def build_up(
    mass_g: ArrayLike,
    at_mm: ArrayLike,
    u_mass_g: ArrayLike,
    u_place_mm: ArrayLike,
    common_g: ArrayLike | None = None,
) -> BuildUp:
    """Return the prior of N items with independent errors, and offsets that weighings share.

    Parameters: mass_g (N,); at_mm (N, 2); u_mass_g (N,); u_place_mm (N,) or (N, 2); common_g
    (G, N), what one standard uncertainty of each shared offset does to each mass.

    >>> prior = build_up([100.0, 300.0], [[0, 0], [400, 0]], [2.0, 3.0], [2.0, 2.0])
    >>> prior.total_g, prior.cg_mm.tolist(), prior.u.tolist()
    (400.0, [300.0, 0.0], [2.0, 3.0, 2.0, 2.0, 2.0, 2.0])
    """
    mass, place = np.asarray(mass_g, dtype=np.float64), np.asarray(at_mm, dtype=np.float64)
    u_place = np.asarray(u_place_mm, dtype=np.float64)
    u_place = np.broadcast_to(u_place if u_place.ndim == 2 else u_place[:, None], place.shape)
    u_mass = np.broadcast_to(np.asarray(u_mass_g, dtype=np.float64), mass.shape)
    covariance = np.diag(np.concatenate([u_mass, u_place[:, 0], u_place[:, 1]]) ** 2)
    if common_g is not None:
        shared = np.atleast_2d(np.asarray(common_g, dtype=np.float64))
        covariance[: mass.size, : mass.size] += shared.T @ shared
    return BuildUp(mass, place, covariance)


def observed_weigh_in(
    prior: BuildUp, mass_g: float, x_mm: float, y_mm: float, covariance: ArrayLike
) -> Observations:
    """Return a weigh-in as observations of M, M x and M y about the build-up's CG.

    Parameters: the weighing's mass, x, y and their covariance (3, 3) in g and mm, as in
    `weighing.WeighIn`; a y of nan leaves the third row out.

    >>> prior = build_up([100.0, 300.0], [[0, 0], [400, 0]], [2.0, 3.0], [2.0, 2.0])
    >>> observed_weigh_in(prior, 404.0, 301.0, float("nan"), np.eye(3)).residual.tolist()
    [4.0, 404.0]
    """
    rows = 2 if np.isnan(y_mm) else 3
    count = prior.mass_g.size
    cg = prior.cg_mm
    offset = np.array([x_mm, y_mm]) - cg
    residual = np.array([mass_g - prior.total_g, *(mass_g * offset)])
    matrix = np.zeros((3, 3 * count))
    matrix[0, :count] = 1.0
    matrix[1:, :count] = (prior.at_mm - cg).T
    matrix[1, count : 2 * count] = matrix[2, 2 * count :] = prior.mass_g
    turned = np.diag([1.0, mass_g, mass_g])
    turned[1:, 0] = offset
    spread = np.asarray(covariance, dtype=np.float64)[:rows, :rows]
    turned = turned[:rows, :rows]
    return Observations(residual[:rows], matrix[:rows], turned @ spread @ turned.T)


def observed_items(
    prior: BuildUp, item: ArrayLike, mass_g: ArrayLike, u_g: ArrayLike
) -> Observations:
    """Return weighings of single items (indices) as observations, independent of one another.

    >>> prior = build_up([100.0, 300.0], [[0, 0], [400, 0]], [2.0, 3.0], [2.0, 2.0])
    >>> observed_items(prior, [1], [305.0], [0.5]).residual.tolist()
    [5.0]
    """
    index = np.atleast_1d(np.asarray(item, dtype=np.int64))
    residual = np.atleast_1d(np.asarray(mass_g, dtype=np.float64)) - prior.mass_g[index]
    matrix = np.eye(3 * prior.mass_g.size)[index]
    u = np.broadcast_to(np.asarray(u_g, dtype=np.float64), residual.shape)
    return Observations(residual, matrix, np.diag(u**2))


def together(*parts: Observations) -> Observations:
    """Return several independent observations as one, in their order."""
    covariance = np.zeros((sum(part.residual.size for part in parts),) * 2)
    start = 0
    for part in parts:
        end = start + part.residual.size
        covariance[start:end, start:end] = part.covariance
        start = end
    residual = np.concatenate([part.residual for part in parts])
    return Observations(residual, np.concatenate([part.matrix for part in parts]), covariance)
