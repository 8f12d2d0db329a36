"""A weigh-in on two or three scales as rows against the build-up."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from hardstand.asbuilt.value import Inputs3, PlacedLeg, ScaleReading
from hardstand.asbuilt.value import WeighIn as Weighed
from hardstand.engines.balance.cg_height import wheel_contacts
from hardstand.engines.balance.load_line import scale_u_g
from hardstand.engines.balance.model import Floats
from hardstand.engines.balance.seen import Seen
from hardstand.engines.balance.usable import leg_under
from hardstand.engines.balance.weighing import WeighIn, WeighingErrors, weigh_in
from hardstand.figures import Input

STEP_DEG = 0.01
EXACT = WeighingErrors(0.0, 0.0, 0.0, 0.0)  # the uncertainties are taken through the slopes
FLATTEST = 1e-3  # of a triangle of contact points, height over base: under it no y can be told


def on_scales(one: Weighed, legs: tuple[PlacedLeg, ...], values: Floats, row: int) -> Seen:
    """Mass, CG station and, from three scales at three corners, the CG sideways.

    With two scales the second is taken to carry both main wheels, so that nothing is known of y.
    Under a leg the wheel's contact point rolls aft under its axle as the nose is raised; a scale
    placed by `at_mm` stands where it says. Readings count as independent of one another. Roll is
    taken as 0, known as well as the pitch.

    Parameters: values (4,), mass and CG of the state as built up; row, its number. Assumes what
    `usable.why_unusable` lets through.
    """
    grams = np.array([reading.reading.value for reading in one.readings])
    contacts = [contact_of(reading, legs) for reading in one.readings]
    level = np.array([[at.value for at in contact] for contact in contacts])
    radius = np.array([_radius_mm(contact, legs) for contact in contacts])
    axle = level + radius[:, None] * np.array([0.0, 0.0, 1.0])

    def weighed(pitch_deg: float, roll_deg: float = 0.0) -> WeighIn:
        contact = wheel_contacts(axle, radius, pitch_deg, roll_deg)
        height = float(values[3])
        return weigh_in(grams, contact, height, EXACT, pitch_deg=pitch_deg, roll_deg=roll_deg)

    pitch = one.pitch.value
    found = weighed(pitch)
    inputs, columns = [], []
    for k, reading in enumerate(one.readings):
        u = float(scale_u_g(reading.reading.u, reading.resolution_g))
        inputs.append(replace(reading.reading, u=u))
        columns.append([1.0, *found.by_reading_mm_per_g[k]])
        inputs += contacts[k]
        share = float(found.by_contact[k])
        columns += [[0.0, share, 0.0], [0.0, 0.0, share], [0.0, *(-share * found.by_height)]]
    inputs += [one.pitch, _roll(one)]
    for turn in ((STEP_DEG, 0.0), (0.0, STEP_DEG)):
        low, high = (weighed(pitch + sign * turn[0], sign * turn[1]) for sign in (-1.0, 1.0))
        by_turn = np.array([high.x_mm - low.x_mm, high.y_mm - low.y_mm]) / (2.0 * STEP_DEG)
        columns.append([0.0, *by_turn])
    rows = (0, 1, 2) if _at_three_corners(level) else (0, 1)
    by_built = np.zeros((3, 4))
    by_built[1:, 3] = found.by_height
    return Seen(
        one,
        row,
        rows,
        np.array([found.mass_g, found.x_mm, found.y_mm])[: len(rows)],
        values.copy(),
        by_built[: len(rows)],
        tuple(inputs),
        np.array(columns).T[: len(rows)],
    )


def contact_of(reading: ScaleReading, legs: tuple[PlacedLeg, ...]) -> Inputs3:
    """Where a scale carried the aeroplane: the weigh-in's own point, else the leg's.

    A tolerance that the weigh-in states for its stations wins over the leg's own.
    """
    leg = _leg(reading.at, legs)
    stated = reading.at[0].u_from == "tolerance in the file"
    return reading.at if leg is None or stated else leg.contact


def _leg(at: Inputs3, legs: tuple[PlacedLeg, ...]) -> PlacedLeg | None:
    name = leg_under(at[0].address)
    return next((leg for leg in legs if leg.id == name), None)


def _radius_mm(at: Inputs3, legs: tuple[PlacedLeg, ...]) -> float:
    leg = _leg(at, legs)
    return 0.0 if leg is None else leg.leg.wheel_radius_mm


def _roll(one: Weighed) -> Input:
    return Input(
        f"weighing.{one.id}.roll_deg",
        0.0,
        "deg",
        one.pitch.u,
        "assumed",
        "",
        "level sideways, known as well as the pitch",
    )


def _at_three_corners(contact: Any) -> bool:
    if len(contact) != 3:
        return False
    sides = (contact[1:] - contact[0])[:, :2]
    longest = float(np.max(np.sum(sides**2, axis=1)))
    return bool(abs(np.linalg.det(sides)) > FLATTEST * longest)
