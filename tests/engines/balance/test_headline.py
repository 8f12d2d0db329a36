"""The judged figures: against Monte Carlo, against a general least-squares solver, by derivative."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from hardstand.assessment import Assessment
from hardstand.engines.balance.model import Floats, Headline, MassTable, Sums, Weighings
from tests.aeroplanes import SMALL, WEIGHED, assessed, swapped

WEIGH_IN = WEIGHED.format(nose=1085, left=3935, right=3925)
FAR_OFF = WEIGHED.format(nose=1180, left=4200, right=4120)  # far enough for curvature to count


def written(values: dict[str, float]) -> str:
    """The small aeroplane with some of its numbers changed, by what stands in the text."""
    places: dict[str, Callable[[float], tuple[str, str]]] = {
        "mass.nose.mass_g": lambda v: (
            "mass_g = 1000\nat_mm = [300",
            f"mass_g = {v!r}\nat_mm = [300",
        ),
        "mass.body.at_mm.x": lambda v: ("at_mm = [990, 0, 0]", f"at_mm = [{v!r}, 0, 0]"),
        "mass.tail.at_mm.z": lambda v: ("at_mm = [1600, 0, 40]", f"at_mm = [1600, 0, {v!r}]"),
        "fuel.density_kg_m3": lambda v: ("density_kg_m3 = 800", f"density_kg_m3 = {v!r}"),
        "leg.nose-leg.moving_g": lambda v: ("moving_g = 200", f"moving_g = {v!r}"),
        "cg_mark.at_mm.x": lambda v: ("at_mm = [800, 100, 0]", f"at_mm = [{v!r}, 100, 0]"),
        "item.tank-main.mass_centre_mm.x": lambda v: ("at_mm = [960, 0, 20]", f"at_mm = [{v!r}, 0, 20]"),
    }
    text = SMALL
    for address, value in values.items():
        text = swapped(text, *places[address](value))
    return text


@pytest.mark.parametrize(
    "address, by, state",
    [
        ("mass.nose.mass_g", 1.0, "empty"),
        ("mass.body.at_mm.x", 0.5, "full"),
        ("mass.tail.at_mm.z", 0.5, "low"),
        ("fuel.density_kg_m3", 2.0, "full"),
        ("leg.nose-leg.moving_g", 2.0, "low"),
        ("cg_mark.at_mm.x", 0.5, "empty"),
        ("item.tank-main.mass_centre_mm.x", 0.5, "full"),
    ],
)
def test_slopes_agree_with_differences(address: str, by: float, state: str) -> None:
    """Every kind of input moves every figure of a state as its sensitivity says."""
    base = assessed()
    middle = next(
        one.value for one in base.set_of("balance.cg@empty").inputs if one.address == address
    )
    ends = [assessed(written({address: middle + sign * by})) for sign in (-1.0, 1.0)]
    for name in ("mass", "cg", "cg-y", "cg-z", "cg-mac", "ixx", "iyy", "izz", "ixz"):
        figure = f"balance.{name}@{state}"
        slope = dict(base.figure(figure).parents).get(address, 0.0)
        difference = (ends[1].figure(figure).value - ends[0].figure(figure).value) / (2.0 * by)
        assert slope == pytest.approx(difference, rel=2e-3, abs=2e-6), figure


def _rolled_up(table: MassTable, step: Floats) -> Floats:
    """Mass and CG (S, 4) with every input moved, recomputed entry by entry and without slopes."""
    mass, at = table.mass_g.copy(), table.at_mm.copy()
    for links, target in ((table.by_mass, mass), (table.by_place, at)):
        for component, column, axis, factor in zip(
            links.component, links.column, links.axis, links.factor, strict=True
        ):
            if target is mass:
                mass[:, component] += factor * step[column]
            else:
                at[:, component, axis] += factor * step[column]
    total = mass.sum(axis=1)
    return np.column_stack([total, np.einsum("sn,sni->si", mass, at) / total[:, None]])


def _sampled(assessment: Assessment, trials: int) -> Floats:
    """Mass and CG of every state for randomly drawn inputs."""
    table: MassTable = assessment.results["balance.masses"]
    random = np.random.default_rng(20)
    u = np.array([one.u for one in table.inputs])
    return np.array([_rolled_up(table, random.normal(0.0, u)).ravel() for _ in range(trials)])


def test_monte_carlo_agrees_with_first_order() -> None:
    """Drawn masses and places spread mass and CG as the propagated uncertainty says."""
    trials = 3000
    base = assessed()
    sums: Sums = base.results["balance.sums"]
    spread = _sampled(base, trials).std(axis=0, ddof=1)
    # a sample's standard deviation is itself uncertain by 1/sqrt(2 n): four of those, and 1 % for
    # what is left out at second order
    allowed = 4.0 / np.sqrt(2.0 * trials) + 0.01
    np.testing.assert_allclose(spread, sums.figures.u, rtol=allowed, atol=1e-9)


def test_a_weigh_in_updates_as_a_general_solver_does() -> None:
    """The inputs that a library's non-linear least squares finds are those of the headline."""
    from scipy.optimize import least_squares

    found = assessed(SMALL, FAR_OFF)
    table: MassTable = found.results["balance.masses"]
    weighings: Weighings = found.results["balance.weighings"]
    head: Headline = found.results["balance.headline"]
    u = np.array([one.u for one in table.inputs])
    names = [f"balance.weighed-{name}@first" for name in ("mass", "cg", "cg-y")]
    measured = np.array([found.figure(name).value for name in names])
    shown = weighings.figures
    rows = [shown.addresses.index(name) for name in names]
    by_reading = shown.sensitivity[rows][:, len(u) :] * shown.input_u[len(u) :]
    whiten = np.linalg.inv(np.linalg.cholesky(by_reading @ by_reading.T))

    def errors(step: Floats) -> Floats:
        return np.concatenate([step / u, whiten @ (measured - _rolled_up(table, step)[0, :3])])

    step = least_squares(errors, np.zeros(len(u)), x_scale=u, xtol=1e-14, ftol=1e-14).x
    np.testing.assert_allclose(weighings.step, step, rtol=2e-3, atol=1e-4)
    np.testing.assert_allclose(head.mass_g, _rolled_up(table, step)[:, 0], atol=1e-3)
    np.testing.assert_allclose(head.cg_mm, _rolled_up(table, step)[:, 1:], atol=1e-3)


def test_a_weigh_in_shrinks_the_uncertainty_and_never_widens_it() -> None:
    """Every state's CG is known at least as well after a weigh-in as before it."""
    before, after = assessed(), assessed(SMALL, WEIGH_IN)
    for state in ("empty", "full", "low"):
        for name in ("mass", "cg-x", "cg-y"):
            address = f"balance.{name}@{state}"
            assert after.figure(address).u <= before.figure(address).u * (1.0 + 1e-9)
    assert after.figure("balance.cg-x@empty").u < 0.8 * before.figure("balance.cg-x@empty").u


def test_two_weigh_ins_count_for_more_than_one() -> None:
    """A repeated weigh-in shrinks the mass's uncertainty further."""
    again = WEIGH_IN + WEIGH_IN.replace('"first"', '"second"').replace('"r-', '"s-')
    one, two = assessed(SMALL, WEIGH_IN), assessed(SMALL, again)
    assert two.figure("balance.mass@empty").u < 0.85 * one.figure("balance.mass@empty").u


def test_a_stand_under_the_wing_updates_the_cg() -> None:
    """A two-point stand that balances at a station pulls the CG there; one that tips bounds it."""
    level = '[[weighing]]\nid = "w"\nstate = "empty"\nmethod = "stand"\nstand_x_mm = 958\ntips = "level"\n'
    plain, found = assessed(), assessed(SMALL, level)
    built = plain.figure("balance.cg-x@empty").value
    assert built < found.figure("balance.cg-x@empty").value < 958.0
    assert found.figure("balance.cg-x@empty").u < plain.figure("balance.cg-x@empty").u
    tipped = assessed(SMALL, level.replace('"level"', '"tail"'))
    weighed = tipped.results["balance.weighings"].weighed[0]
    assert weighed.low_mm == pytest.approx(956.0)
    assert weighed.high_mm is None
    assert tipped.figure("balance.cg-x@empty").value == pytest.approx(built)


def test_the_kind_says_whether_figures_were_fitted() -> None:
    """Without a weigh-in the CG is computed, with one it is inferred, and so is the inertia."""
    for measurements, kind in (("", "computed"), (WEIGH_IN, "inferred")):
        found = assessed(SMALL, measurements)
        for name in ("cg", "mass", "ixx"):
            assert found.figure(f"balance.{name}@full").kind == kind
        assert found.figure("balance.built-mass@full").kind == "computed"


def test_inertia_follows_the_weigh_in() -> None:
    """A weigh-in that finds more mass finds more inertia, as if the parts had been entered so."""
    found = assessed(SMALL, FAR_OFF)
    before, after = (one.figure("balance.izz@empty") for one in (assessed(), found))
    step: Floats = found.results["balance.weighings"].step
    table: MassTable = found.results["balance.masses"]
    expected = before.value + float(
        assessed().set_of("balance.izz@empty").sensitivity[2] @ step[: len(table.inputs)]
    )
    assert after.value > before.value * 1.02
    assert after.value == pytest.approx(expected, rel=5e-3)
    assert after.u <= before.u * 1.02
