from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.cg_height import Attitude, cg_height, wheel_contacts

AXLES = np.array([[560.0, 0.0, -250.0], [1392.0, 0.0, -255.0]])
RADII = np.array([55.0, 60.0])
CG = np.array([1295.0, 0.0, -6.0])


def _weighing(pitch_deg: float, mass_g: float = 13_340.0) -> Attitude:
    """Return what two scales read under an aeroplane of known CG in an attitude."""
    pitch = np.radians(pitch_deg)
    contact = wheel_contacts(AXLES, RADII, pitch_deg)
    # Distances along the ground, from the turned coordinates.
    along = np.array([np.cos(pitch), 0.0, np.sin(pitch)])
    nose, main, cg = contact[0] @ along, contact[1] @ along, CG @ along
    share = (main - cg) / (main - nose)
    return Attitude(mass_g * np.array([share, 1.0 - share]), contact, pitch_deg)


@pytest.mark.parametrize("first_deg", [0.0, -0.8])
def test_the_height_put_in_comes_out(first_deg: float) -> None:
    """Readings made from a known CG on round wheels give its station and height back."""
    found = cg_height(
        _weighing(first_deg), _weighing(9.0), u_reading_g=5.0, u_contact_mm=1.0, u_pitch_deg=0.1
    )
    assert found.x_mm == pytest.approx(1295.0, abs=1e-6)
    assert found.z_mm == pytest.approx(-6.0, abs=1e-6)


def test_sampling_agrees_with_the_stated_uncertainty() -> None:
    """5 000 pairs of weighings with drawn errors scatter in height as stated."""
    rng, trials = np.random.default_rng(2), 5_000
    stated = cg_height(
        _weighing(0.0), _weighing(9.0), u_reading_g=5.0, u_contact_mm=1.0, u_pitch_deg=0.1
    )
    heights = np.empty(trials)
    for trial in range(trials):
        shift = np.column_stack([rng.normal(0.0, 1.0, 2), np.zeros((2, 2))])
        pair = [
            Attitude(
                np.asarray(one.reading_g) + rng.normal(0.0, 5.0, 2),
                np.asarray(one.contact_mm) + shift,
                one.pitch_deg + rng.normal(0.0, 0.1),
            )
            for one in (_weighing(0.0), _weighing(9.0))
        ]
        heights[trial] = cg_height(
            pair[0], pair[1], u_reading_g=5.0, u_contact_mm=1.0, u_pitch_deg=0.1
        ).z_mm
    assert np.std(heights) == pytest.approx(stated.u_z_mm, rel=5.0 / np.sqrt(2 * trials))


def test_it_is_the_handbook_formula_when_the_first_weighing_is_level() -> None:
    """The height is [(x_m - x) - (N / M) B] / tan(theta) for point wheels."""
    wheelbase, distance, theta = 832.0, 97.4, np.radians(8.0)
    nose_share = (distance - 314.0 * np.tan(theta)) / wheelbase
    contact = [[0.0, 0.0, 0.0], [wheelbase, 0.0, 0.0]]
    level = np.array([distance / wheelbase, 1.0 - distance / wheelbase]) * 13_000.0
    raised = np.array([nose_share, 1.0 - nose_share]) * 13_000.0
    found = cg_height(
        Attitude(level, contact, 0.0),
        Attitude(raised, contact, 8.0),
        u_reading_g=5.0,
        u_contact_mm=1.0,
        u_pitch_deg=0.1,
    )
    assert found.z_mm == pytest.approx(314.0, abs=1e-6)


def test_too_little_tilt_is_refused() -> None:
    """Under three degrees the crossing is worth nothing."""
    with pytest.raises(ValueError, match="3 degrees"):
        cg_height(
            _weighing(0.0), _weighing(2.0), u_reading_g=5.0, u_contact_mm=1.0, u_pitch_deg=0.1
        )
