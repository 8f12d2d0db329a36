"""Which single slip would best explain a weigh-in that disagrees with the parts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from hardstand.engines.balance.build_up import BuildUp, Observations, build_up, observed_weigh_in
from hardstand.engines.balance.model import Floats, MassTable, Sums
from hardstand.engines.balance.seen import Seen
from hardstand.engines.balance.slips import (
    Slip,
    fixed_slips,
    item_slips,
    measuring_slip,
    missing_item_slip,
)
from hardstand.engines.balance.suspect_words import LEVEL, SCALE, STATION, Entry, in_words
from hardstand.engines.balance.suspects import Suspect, rank_suspects, residual_station_mm

FIRST = 5
LEAST_MISSING_G = 1.0
BEYOND_MM = 200.0  # an item may sit this far beyond the middles of the outermost ones
LEAST_U = 1e-3  # g or mm: an entry stated as exact may still be wrong
# A tenth of what a slip of the weigh-in is typically: 100 g on a scale, 30 mm at a wheel, 2 degrees.
TENTH = {"g": 10.0, "mm": 3.0, "deg": 0.2}


@dataclass(frozen=True, eq=False)
class Suspected:
    """A suspect with the name of what it is about, and the slip in words."""

    suspect: Suspect
    name: str
    words: str


def component_u(table: MassTable, row: int) -> tuple[Floats, Floats]:
    """Standard uncertainty of each component's mass (N,), g, and of its x and y (N, 2), mm."""
    u = np.array([one.u for one in table.inputs])
    mass, place = np.zeros(len(table.names)), np.zeros((len(table.names), 3))
    m, p = table.by_mass, table.by_place
    np.add.at(mass, m.component, (m.factor[:, row] * u[m.column]) ** 2)
    np.add.at(place, (p.component, p.axis), (p.factor[:, row] * u[p.column]) ** 2)
    return np.sqrt(mass), np.sqrt(place[:, :2])


def suspects_of(found: Seen, table: MassTable, sums: Sums) -> tuple[Suspected, ...]:
    """The likeliest single slips for one weigh-in on scales, likeliest first.

    Every mass and place on board, every contact point, every scale and the level may be wrong; an
    item may be missing or counted twice. Components count as independent of one another. A weigh-in
    on a stand gives one number only and can't tell slips apart: nothing is returned.
    """
    mass = found.measured(0)
    if mass is None:
        return ()
    row = found.row
    aboard = np.flatnonzero(table.mass_g[row] > 0.0)
    u_mass, u_place = component_u(table, row)
    prior = build_up(
        table.mass_g[row, aboard],
        table.at_mm[row, aboard, :2],
        np.maximum(u_mass[aboard], LEAST_U),
        np.maximum(u_place[aboard], LEAST_U),
    )
    y_mm = found.at_built[2] if 2 in found.rows else np.nan
    covariance = found.covariance + _of_height(found, table, sums)
    seen = observed_weigh_in(prior, mass[0], float(found.at_built[1]), float(y_mm), covariance)
    slips = [
        *item_slips(prior, seen),
        *fixed_slips(prior, seen),
        *_of_the_weighing(found, seen, mass[0]),
    ]
    missing_at = _residual_station_mm(prior, found)
    if missing_at is not None:
        slips.append(missing_item_slip(prior, seen))
    ranked = rank_suspects(prior, seen, slips, FIRST)
    entries = [
        Entry(table.names[i], float(table.mass_g[row, i]), float(table.at_mm[row, i, 0]))
        for i in aboard
    ]
    return tuple(
        Suspected(one, entries[one.item].name if one.item >= 0 else one.kind, words)
        for one in ranked
        for words in [in_words(one, entries[one.item] if one.item >= 0 else None, missing_at)]
    )


def _of_height(found: Seen, table: MassTable, sums: Sums) -> Floats:
    """What the uncertain height of the CG adds to the covariance of the measured rows."""
    u_z = np.linalg.norm(sums.slope[found.row, 3] * np.array([one.u for one in table.inputs]))
    lean = found.by_built[:, 3] * u_z
    return np.asarray(np.outer(lean, lean), dtype=np.float64)


def _of_the_weighing(found: Seen, seen: Observations, mass_g: float) -> Iterator[Slip]:
    """Slips of the weigh-in itself: a scale, the station of a contact point, the level."""
    turned = np.array([1.0, mass_g, mass_g])[: seen.residual.size]
    offset = np.zeros(seen.residual.size)
    offset[1:] = seen.residual[1:] / mass_g
    for reading, column in zip(found.readings, found.by_reading.T, strict=True):
        kind = _kind(reading.address)
        if kind is None:
            continue
        direction = turned * column + offset * column[0]
        yield measuring_slip(kind, reading.unit, direction, max(reading.u, TENTH[reading.unit]))


def _kind(address: str) -> str | None:
    if address.endswith(".pitch_deg"):
        return LEVEL
    _, name, field = address.split(".", 2)
    if field == "reading_g":
        return f"{SCALE} {name}"
    return f"{STATION} {name}" if field.endswith("_mm.x") else None


def _residual_station_mm(prior: BuildUp, found: Seen) -> float | None:
    """Station of a single mass whose absence or excess explains mass and x.

    None where the masses agree, or where it would lie beyond either end of what is entered.
    """
    computed, measured = prior.total_g, float(found.at_built[0])
    if abs(measured - computed) < LEAST_MISSING_G:
        return None
    at = residual_station_mm(computed, float(prior.cg_mm[0]), measured, float(found.at_built[1]))
    low, high = prior.at_mm[:, 0].min() - BEYOND_MM, prior.at_mm[:, 0].max() + BEYOND_MM
    return at if low <= at <= high else None
