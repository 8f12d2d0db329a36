"""Mass and CG from wheels on scales: three scales, or two with the main wheels on one.

In the aeroplane's axes the vertical leans by the attitude: each degree of nose-down would move the
answer forward by the CG's height times tan 1 degree; it is put back here. Source: see `load_line`.
Caution: two people lift; chocks ready; fuel shut off, packs unplugged.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hardstand.engines.balance.load_line import lean_by_degree, load_line

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class WeighingErrors:
    """Standard uncertainties of what a weighing is made from.

    Attributes: u_reading_g, of each reading, rounding included (`scale_u_g`); u_contact_mm, of each
    contact point along x and along y; u_cg_z_mm, of the CG's height; u_level_deg, of pitch and of
    roll; u_offset_g, of an error that all readings share (one scale used in turn, its tare).
    """

    u_reading_g: float
    u_contact_mm: float
    u_cg_z_mm: float
    u_level_deg: float
    u_offset_g: float = 0.0


@dataclass(frozen=True, eq=False)
class WeighIn:
    """A weighing's result.

    Attributes: mass_g, x_mm, y_mm (nan where the scales can't tell); covariance (3, 3) of mass, x
    and y in g and mm; how x and y follow what they were made from: by_reading_mm_per_g (K, 2);
    by_contact (K,), the same along x and y; by_level_mm_per_deg (2, 2), x and y by pitch and roll;
    by_height (2,).
    """

    mass_g: float
    x_mm: float
    y_mm: float
    covariance: Floats
    by_reading_mm_per_g: Floats
    by_contact: Floats
    by_level_mm_per_deg: Floats
    by_height: Floats

    @property
    def u_mass_g(self) -> float:
        """Standard uncertainty of the mass, g."""
        return float(np.sqrt(self.covariance[0, 0]))

    @property
    def u_x_mm(self) -> float:
        """Standard uncertainty of the CG along x, mm."""
        return float(np.sqrt(self.covariance[1, 1]))

    @property
    def u_y_mm(self) -> float:
        """Standard uncertainty of the CG along y, mm; nan without a y."""
        return float(np.sqrt(self.covariance[2, 2]))


def weigh_in(
    reading_g: ArrayLike,
    contact_mm: ArrayLike,
    cg_z_mm: float,
    errors: WeighingErrors,
    *,
    pitch_deg: float = 0.0,
    roll_deg: float = 0.0,
) -> WeighIn:
    """Return mass and CG of an aeroplane standing on scales, with uncertainties.

    Parameters: reading_g (K,), contact_mm (K, 3), pitch_deg, roll_deg as in `load_line`; cg_z_mm,
    the CG's height in the aeroplane's axes, from the build-up or from `cg_height`; errors.
    With contact points of one y (both main wheels on one scale) y is nan.
    Returns `WeighIn`. Raises ValueError as `load_line` does, or without two different stations.

    >>> contacts = [[560, 0, -314], [1392, -300, -314], [1392, 300, -314]]
    >>> found = weigh_in([1565, 5905, 5890], contacts, -6.0, WeighingErrors(5.0, 1.0, 5.0, 0.2))
    >>> round(found.mass_g), round(found.x_mm, 1), round(found.y_mm, 2), round(found.u_x_mm, 1)
    (13360, 1294.5, -0.34, 1.3)
    """
    contact = np.asarray(contact_mm, dtype=np.float64)
    if np.ptp(contact[:, 0]) < 1e-6:
        raise ValueError("a weighing needs scales at two different stations at least")
    line = load_line(reading_g, contact, pitch_deg, roll_deg)
    height = cg_z_mm - line.centre_mm[2]
    place = line.centre_mm[:2] + line.lean * height
    by_level = lean_by_degree(pitch_deg, roll_deg) * height
    count = contact.shape[0]
    # One column for each independent error: what one u of it does to mass, x and y.
    columns = np.zeros((3, 3 * count + 4))
    columns[:, :count] = np.vstack([np.ones(count), line.by_reading_mm_per_g.T])
    columns[:, :count] *= errors.u_reading_g
    columns[1, count : 2 * count] = line.share * errors.u_contact_mm
    columns[2, 2 * count : 3 * count] = line.share * errors.u_contact_mm
    columns[:, -4] = [count, *line.by_reading_mm_per_g.sum(axis=0)]
    columns[:, -4] *= errors.u_offset_g
    columns[1:, -3] = line.lean * errors.u_cg_z_mm
    columns[1:, -2:] = by_level * errors.u_level_deg
    covariance = columns @ columns.T
    if np.ptp(contact[:, 1]) < 1e-6:
        place[1] = np.nan
        covariance[2, :] = covariance[:, 2] = np.nan
    return WeighIn(
        mass_g=line.mass_g,
        x_mm=float(place[0]),
        y_mm=float(place[1]),
        covariance=covariance,
        by_reading_mm_per_g=line.by_reading_mm_per_g,
        by_contact=line.share,
        by_level_mm_per_deg=by_level,
        by_height=line.lean,
    )
