"""Weigh-ins on scales against statics worked out along the floor, and against differences."""

from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.model import WeighedIn, Weighings
from tests.aeroplanes import SMALL, assessed, exact, swapped, weighed_as

MASS = 8950.0
CG = (955.0, 1.5, -12.0)


def weighed(measurements: str, text: str = SMALL) -> WeighedIn:
    """The first weigh-in of the small aeroplane."""
    found: Weighings = assessed(text, measurements).results["balance.weighings"]
    return found.weighed[0]


@pytest.mark.parametrize("pitch_deg", [0.0, 2.0, -3.0, 10.0])
def test_the_cg_comes_out_whatever_the_attitude(pitch_deg: float) -> None:
    """Scales that show what statics gives for a CG lead back to it, if its height is right."""
    built_z = assessed().figure("balance.built-cg-z@empty").value
    found = weighed(weighed_as(MASS, (CG[0], CG[1], built_z), pitch_deg=pitch_deg))
    assert found.mass_g == pytest.approx(MASS, abs=1e-4)
    assert found.x_mm == pytest.approx(CG[0], abs=1e-4)
    assert found.y_mm == pytest.approx(CG[1], abs=1e-4)


def test_two_attitudes_find_the_height_of_the_cg() -> None:
    """Level and with the nose 8 degrees up: a CG 25 mm higher than the parts have it is found."""
    built = assessed(exact(SMALL))
    z = built.figure("balance.built-cg-z@empty").value + 25.0
    x, y = (built.figure(f"balance.built-cg-{axis}@empty").value for axis in "xy")
    loose = SMALL.replace("[[mass]]", "[[mass]]\nat_tol_mm = 60")
    level = weighed_as(8900.0, (x, y, z))
    raised = weighed_as(8900.0, (x, y, z), pitch_deg=8.0, name="raised")
    alone, both = assessed(loose, level), assessed(loose, level + raised)
    assert both.figure("balance.cg-z@empty").value == pytest.approx(z, abs=4.0)
    assert (
        abs(both.figure("balance.cg-z@empty").value - z)
        <= both.figure("balance.cg-z@empty").expanded
    )
    assert both.figure("balance.cg-z@empty").u < 0.4 * alone.figure("balance.cg-z@empty").u
    assert alone.figure("balance.cg-z@empty").value != pytest.approx(z, abs=4.0)


def test_contact_points_are_one_cause_for_weigh_ins_and_wheels() -> None:
    """Two weigh-ins and the nose share know of one contact point of each leg."""
    both = weighed_as(MASS, CG) + weighed_as(MASS, CG, name="second")
    found = assessed(SMALL, both)
    for figure in ("balance.cg-x@empty", "balance.nose-share@empty"):
        inputs = [one.address for one in found.set_of(figure).inputs]
        assert len(inputs) == len(set(inputs))
        assert inputs.count("leg.nose-leg.contact_mm.x") == 1
    once = assessed(SMALL, weighed_as(MASS, CG))
    # repeated readings tell no more about where the wheels stand
    one, two = (dict(a.figure("balance.cg-x@empty").parents) for a in (once, found))
    assert two["leg.left-leg.contact_mm.x"] == pytest.approx(
        one["leg.left-leg.contact_mm.x"], rel=0.1
    )


def test_roll_is_as_uncertain_as_pitch() -> None:
    """The CG sideways is no better known than the level allows: 0.2 degrees at its height."""
    found = weighed(weighed_as(MASS, CG).replace("pitch_tol_deg = 0.05", "pitch_tol_deg = 0.4"))
    assert found.u_y_mm is not None
    height = 220.0 - 12.0  # of the CG over the axles, about
    assert found.u_y_mm > 0.9 * np.radians(0.2) * height
    assert found.u_x_mm > 0.9 * np.radians(0.2) * height


@pytest.mark.parametrize(
    "address, old, by",
    [
        ("reading.first-nose.reading_g", "reading_g = {nose}", 2.0),
        ("weighing.first.pitch_deg", "pitch_deg = 4.0", 0.02),
        ("leg.nose-leg.contact_mm.x", "contact_mm = [400", 0.5),
    ],
)
def test_the_measured_values_follow_what_was_read(address: str, old: str, by: float) -> None:
    """Slopes of mass, x and y agree with differences between weigh-ins written otherwise."""
    measurements = weighed_as(MASS, CG, pitch_deg=4.0)
    shown = assessed(SMALL, measurements).results["balance.weighings"].figures
    column = [one.address for one in shown.inputs].index(address)
    value = shown.inputs[column].value
    texts = []
    for sign in (-1.0, 1.0):
        new = f"{value + sign * by!r}"
        if address.startswith("leg."):
            texts.append((swapped(SMALL, old, f"contact_mm = [{new}"), measurements))
        else:
            written = old.replace("{nose}", f"{value:.6f}")
            texts.append(
                (SMALL, swapped(measurements, written, f"{old.partition(' = ')[0]} = {new}"))
            )
    for name in ("mass", "cg", "cg-y"):
        figure = f"balance.weighed-{name}@first"
        low, high = (assessed(*text).figure(figure).value for text in texts)
        slope = shown.sensitivity[shown.addresses.index(figure), column]
        assert slope == pytest.approx((high - low) / (2.0 * by), rel=1e-3, abs=1e-5)


def test_with_both_mains_on_one_scale_nothing_is_known_of_y() -> None:
    """Two scales tell mass and station; the CG sideways stays that of the parts."""
    three = weighed_as(MASS, CG)
    last = three.rindex("[[reading]]")
    nose, left = three.index("reading_g = "), three.index("reading_g = ", three.index("left"))
    on_nose = float(three[nose + 12 :].split()[0])
    two = three[:left] + f"reading_g = {MASS - on_nose:.6f}\n"
    assert two.count("[[reading]]") == 2
    assert last > left
    found = weighed(two)
    assert (found.y_mm, found.u_y_mm) == (None, None)
    assert found.x_mm == pytest.approx(weighed(three).x_mm, abs=1e-4)
    assert found.residual_y_mm is None


def test_a_tolerance_for_the_stations_of_a_weigh_in_wins() -> None:
    """Stated with the weigh-in it is used; without one the leg's own is."""
    stated = weighed_as(MASS, CG)
    silent = stated.replace("\nstation_tol_mm = 0.5", "")
    legs = SMALL.replace("contact_mm = [", "contact_tol_mm = 3\ncontact_mm = [")

    def u_of(text: str, measurements: str) -> float:
        found: Weighings = assessed(text, measurements).results["balance.weighings"]
        shown = found.figures
        return next(one.u for one in shown.inputs if one.address == "leg.nose-leg.contact_mm.x")

    assert (u_of(legs, stated), u_of(legs, silent), u_of(SMALL, silent)) == (0.25, 1.5, 1.0)
