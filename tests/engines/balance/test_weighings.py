from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.model import Weighings
from tests.aeroplanes import SMALL, assessed, of_code, weighed_as

CG = (955.0, 1.5, -12.0)
STAND = (
    '[[weighing]]\nid = "stand"\nstate = "low"\nmethod = "stand"\nstand_x_mm = 975\ntips = "nose"\n'
)


def weighings(measurements: str) -> Weighings:
    """The weigh-ins of the small aeroplane."""
    found: Weighings = assessed(SMALL, measurements).results["balance.weighings"]
    return found


def test_weigh_ins_stand_in_the_order_of_the_file() -> None:
    """Tipped, weighed, unusable: each where it belongs."""
    bad = weighed_as(30_000.0, CG, name="bad")
    found = weighings(STAND + weighed_as(8950.0, CG) + bad + weighed_as(8955.0, CG, name="last"))
    assert [one.id for one in found.weighed] == ["stand", "first", "last"]
    assert [name for name, _ in found.unusable] == ["bad"]


def test_residuals_are_figures_with_their_parents() -> None:
    """What is shown, the figure and its uncertainty are one; it follows readings and parts."""
    found = assessed(SMALL, weighed_as(8950.0, CG))
    one = found.results["balance.weighings"].weighed[0]
    for name, value, u in (
        ("mass", one.residual_g, one.u_residual_g),
        ("cg", one.residual_mm, one.u_residual_mm),
        ("cg-y", one.residual_y_mm, one.u_residual_y_mm),
    ):
        figure = found.figure(f"balance.weigh-in-{name}@first")
        assert figure.value == pytest.approx(value)
        assert figure.u == pytest.approx(u)
        weighed, built = (
            found.figure(step).value for step in found.set_of(figure.address).steps[figure.address]
        )
        assert weighed - built == pytest.approx(value)
    parents = dict(found.figure("balance.weigh-in-mass@first").parents)
    assert parents["reading.first-nose.reading_g"] == 1.0
    assert parents["mass.body.mass_g"] == -1.0


def test_sound_weigh_ins_are_as_far_apart_as_their_chance_says() -> None:
    """Readings drawn from what is believed: the chance is spread evenly from 0 to 1."""
    base = assessed(SMALL, weighed_as(8900.0, CG))
    shown = base.results["balance.weighings"].figures
    random = np.random.default_rng(3)
    rows = [
        shown.addresses.index(f"balance.weigh-in-{name}@first") for name in ("mass", "cg", "cg-y")
    ]
    spread = shown.sensitivity[rows] * shown.input_u
    covariance = spread @ spread.T
    drawn = spread @ random.standard_normal((spread.shape[1], 4000))
    chi = np.einsum("kt,kl,lt->t", drawn, np.linalg.inv(covariance), drawn)
    from hardstand.engines.balance.reconcile import chi_square_chance

    chances = np.sort([chi_square_chance(float(one), 3) for one in chi])
    assert np.max(np.abs(chances - np.linspace(0.0, 1.0, chances.size))) < 0.03


def test_weigh_ins_that_nothing_brings_together_are_left_out() -> None:
    """A stand ten metres aft: the parts stay as they were entered, and why is said."""
    far = STAND.replace("975", "9750").replace('"nose"', '"level"')
    loose = SMALL.replace("[[mass]]", "[[mass]]\nmass_tol_g = 9000")
    found = assessed(loose, far)
    assert [one.about for one in of_code(found, "balance.weigh-in-unusable")] == [("stand",)]
    assert found.figure("balance.cg@low").value == assessed(loose).figure("balance.cg@low").value
