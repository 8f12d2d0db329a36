"""Which single slip would best explain a weigh-in that disagrees with the parts: names for people."""

from __future__ import annotations

import numpy as np

from hardstand.asbuilt.value import WeighIn as Weighed
from hardstand.engines.balance.build_up import build_up, observed_weigh_in
from hardstand.engines.balance.load_line import scale_u_g
from hardstand.engines.balance.model import MassTable
from hardstand.engines.balance.slips import (
    fixed_slips,
    item_slips,
    measuring_slip,
    missing_item_slip,
)
from hardstand.engines.balance.suspects import Suspect, rank_suspects
from hardstand.engines.balance.weighing import WeighIn, WeighingErrors, weigh_in

FIRST = 5


def _component_u(table: MassTable, row: int) -> tuple[list[float], list[float]]:
    """Standard uncertainty of each component's mass (g) and of its place along x (mm)."""
    u = np.array([one.u for one in table.inputs])
    count = len(table.names)
    mass_variance, place_variance = np.zeros(count), np.zeros(count)
    m, p = table.by_mass, table.by_place
    np.add.at(mass_variance, m.component, (m.factor[:, row] * u[m.column]) ** 2)
    along = p.axis == 0
    np.add.at(place_variance, p.component[along], (p.factor[along, row] * u[p.column[along]]) ** 2)
    return np.sqrt(mass_variance).tolist(), np.sqrt(place_variance).tolist()


def suspects_of(
    weighed: Weighed, table: MassTable, row: int, result: WeighIn | None
) -> tuple[tuple[Suspect, ...], tuple[str, ...]]:
    """The likeliest single slips for one weigh-in on scales, and the name of what each is about.

    A weigh-in on a stand gives one number only and can't tell slips apart: nothing is returned.
    """
    if result is None:
        return (), ()
    aboard = np.flatnonzero(table.mass_g[row] > 0.0)
    u_mass, u_place = _component_u(table, row)
    prior = build_up(
        table.mass_g[row, aboard],
        table.at_mm[row, aboard, :2],
        np.array(u_mass)[aboard],
        np.maximum(np.array(u_place)[aboard], 1e-3),
    )
    contact = np.array([[at.value for at in one.at] for one in weighed.readings])
    u_reading = max(float(scale_u_g(one.reading.u, one.resolution_g)) for one in weighed.readings)
    u_contact = max(one.at[0].u for one in weighed.readings)
    errors = WeighingErrors(u_reading, u_contact, 5.0, weighed.pitch.u)
    full = weigh_in(
        [one.reading.value for one in weighed.readings],
        contact,
        _cg_z(table, row),
        errors,
        pitch_deg=weighed.pitch.value,
    )
    seen = observed_weigh_in(prior, full.mass_g, full.x_mm, full.y_mm, full.covariance)
    level = np.array([0.0, *(full.mass_g * full.by_level_mm_per_deg[:, 0])])[: seen.residual.size]
    slips = [
        *item_slips(prior, seen),
        *fixed_slips(prior, seen),
        missing_item_slip(prior, seen),
        measuring_slip("level while weighing", "deg", level, max(weighed.pitch.u, 0.05)),
    ]
    ranked = rank_suspects(prior, seen, slips, FIRST)
    names = tuple(
        table.names[int(aboard[one.item])] if one.item >= 0 else one.kind for one in ranked
    )
    return tuple(ranked), names


def _cg_z(table: MassTable, row: int) -> float:
    mass = table.mass_g[row]
    return float(mass @ table.at_mm[row, :, 2] / mass.sum())
