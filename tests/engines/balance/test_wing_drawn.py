from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.planform import planform
from hardstand.engines.balance.wing_drawn import chord_slopes, wing_inputs, wing_panels
from tests.aeroplanes import SMALL, as_built, swapped

ROOT = "root_mm = [750, 0, 0]"
EXPOSED = swapped(
    swapped(SMALL, ROOT, "root_mm = [780, 90, 0]"), "root_chord_mm = 500", "root_chord_mm = 475"
)


def test_a_wing_from_the_fuselage_side_has_the_gross_area() -> None:
    """Drawn on along its edges it is the wing that was drawn from the centreline, and that is said."""
    whole, silent = wing_panels(as_built().panels)
    carried, said = wing_panels(as_built(EXPOSED).panels)
    assert (silent, "90 mm" in said) == ("", True)
    one, two = planform(whole), planform(carried)
    assert two.area_mm2 == pytest.approx(one.area_mm2)
    assert two.mac_mm == pytest.approx(one.mac_mm)
    assert two.mac_x_mm == pytest.approx(one.mac_x_mm)


def test_edges_that_would_cross_are_left_as_drawn() -> None:
    """A stub that widens outward cannot be drawn on; it stays, and that is said."""
    text = swapped(SMALL, ROOT, "root_mm = [750, 400, 0]").replace(
        "root_chord_mm = 500", "root_chord_mm = 20"
    )
    panels, said = wing_panels(as_built(text).panels)
    assert panels[0].root.y_mm == 400.0
    assert "left so" in said


@pytest.mark.parametrize("text", [SMALL, EXPOSED])
def test_slopes_of_the_chord_are_differences(text: str) -> None:
    """Mean chord and leading edge follow every chord and station as a larger difference says."""
    rows = as_built(text).panels
    slope = chord_slopes(rows)
    inputs = wing_inputs(rows)
    assert slope.shape == (2, len(inputs)) == (2, 4)
    by = 3.0
    for column, one in enumerate(inputs):
        field = one.address.split(".")[2]
        shapes = []
        for sign in (-1.0, 1.0):
            value = getattr(rows[0], field)
            moved = (
                (value[0] + sign * by, *value[1:])
                if isinstance(value, tuple)
                else value + sign * by
            )
            wing = planform(wing_panels((rows[0].model_copy(update={field: moved}), *rows[1:]))[0])
            shapes.append([wing.mac_mm, wing.mac_x_mm])
        np.testing.assert_allclose(
            slope[:, column], np.diff(shapes, axis=0)[0] / (2.0 * by), rtol=1e-3, atol=1e-6
        )


def test_a_stated_chord_tolerance_wins() -> None:
    """Half of the half-width stated, else of the class default of 2 mm."""
    stated = swapped(SMALL, "root_chord_mm = 500", "root_chord_mm = 500\nchord_tol_mm = 5")
    assert [one.u for one in wing_inputs(as_built(stated).panels)] == [2.5] * 4
    assert [one.u for one in wing_inputs(as_built().panels)] == [1.0] * 4
