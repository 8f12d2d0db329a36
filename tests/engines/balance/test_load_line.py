from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.balance.load_line import lean_by_degree, load_line, scale_u_g

ANGLE = st.floats(-6.0, 6.0)
CONTACTS = np.array([[560.0, 0.0, -300.0], [1392.0, -300.0, -320.0], [1392.0, 300.0, -320.0]])


def readings(cg_mm: np.ndarray, mass_g: float, pitch_deg: float, roll_deg: float) -> np.ndarray:
    """Return what three scales read, from the balance of forces and moments in three dimensions."""
    pitch, roll = np.radians(pitch_deg), np.radians(roll_deg)
    up = np.array([-np.sin(pitch), -np.sin(roll) * np.cos(pitch), np.cos(roll) * np.cos(pitch)])
    moments = np.cross(CONTACTS - cg_mm, up).T
    system = np.vstack([np.ones(3), moments])
    return np.asarray(np.linalg.lstsq(system, np.array([mass_g, 0.0, 0.0, 0.0]), rcond=None)[0])


@given(ANGLE, ANGLE, st.floats(1200.0, 1335.0), st.floats(-40.0, 40.0), st.floats(-60.0, 60.0))
def test_the_cg_lies_on_the_line_in_any_attitude(
    pitch_deg: float, roll_deg: float, x_mm: float, y_mm: float, z_mm: float
) -> None:
    """Scales loaded by statics in space give a line through the CG they were loaded from."""
    cg = np.array([x_mm, y_mm, z_mm])
    line = load_line(readings(cg, 13_000.0, pitch_deg, roll_deg), CONTACTS, pitch_deg, roll_deg)
    found = line.centre_mm[:2] + line.lean * (z_mm - line.centre_mm[2])
    assert found == pytest.approx(cg[:2], abs=1e-6)


@given(ANGLE, ANGLE)
def test_slope_of_the_lean_is_that_of_a_difference(pitch_deg: float, roll_deg: float) -> None:
    """The derivative by pitch and by roll agrees with central differences."""
    step = 1e-3
    ones = [1.0, 1.0, 1.0]
    for column, (dp, dr) in enumerate(((step, 0.0), (0.0, step))):
        high = load_line(ones, CONTACTS, pitch_deg + dp, roll_deg + dr).lean
        low = load_line(ones, CONTACTS, pitch_deg - dp, roll_deg - dr).lean
        slope = lean_by_degree(pitch_deg, roll_deg)[:, column]
        assert slope == pytest.approx((high - low) / (2 * step), abs=1e-8)


def test_rounding_scatters_as_stated() -> None:
    """Readings rounded to 10 g scatter by 10 / root 12 g about the truth."""
    truth = np.random.default_rng(3).uniform(1000.0, 9000.0, 100_000)
    rounded = 10.0 * np.round(truth / 10.0)
    assert np.std(rounded - truth) == pytest.approx(scale_u_g(0.0, 10.0), rel=0.01)


@pytest.mark.parametrize("reading", [[-1.0, 5.0, 5.0], [0.0, 0.0, 0.0], [np.nan, 1.0, 1.0]])
def test_readings_that_cannot_be_are_refused(reading: list[float]) -> None:
    """A negative reading, nothing at all and not-a-number raise."""
    with pytest.raises(ValueError, match="must not be negative"):
        load_line(reading, CONTACTS)
