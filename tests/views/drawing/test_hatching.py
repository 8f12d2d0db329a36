"""Hatching: at 45 degrees, inside its outline, neighbours the other way."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.views.drawing.hatching import beside, hatching

SIDE = st.floats(8.0, 300.0)


@given(wide=SIDE, high=SIDE, rising=st.booleans(), band=st.sampled_from([None, 7.0]))
def test_hatching_is_inside_its_outline_and_at_45_degrees(
    wide: float, high: float, rising: bool, band: float | None
) -> None:
    """Every stroke lies in the rectangle and runs the way asked for."""
    found = hatching(((0, 0), (wide, 0), (wide, high), (0, high)), 5.0, band=band, rising=rising)
    assert found is not None
    for (x0, y0), (x1, y1) in found.strokes:
        assert -1e-6 <= min(x0, x1) <= max(x0, x1) <= wide + 1e-6
        assert -1e-6 <= min(y0, y1) <= max(y0, y1) <= high + 1e-6
        assert (y1 - y0) / (x1 - x0) == pytest.approx(-1.0 if rising else 1.0, abs=1e-6)


def test_a_band_leaves_the_middle_open() -> None:
    """No point of a stroke is farther from the edge than the band."""
    found = hatching(((0, 0), (100, 0), (100, 100), (0, 100)), 5.0, band=7.0)
    assert found is not None
    for stroke in found.strokes:
        for x, y in stroke:
            assert min(x, y, 100 - x, 100 - y) <= 7.0 + 1e-6


def test_lines_are_a_step_apart() -> None:
    """Neighbouring strokes of a full hatching are the step apart, measured across."""
    found = hatching(((0, 0), (60, 0), (60, 60), (0, 60)), 6.0)
    assert found is not None
    across = sorted({round((x + y) * math.sqrt(0.5), 6) for (x, y), _ in found.strokes})
    assert {round(b - a, 6) for a, b in pairwise(across)} == {6.0}


def test_the_forbidden_side_of_a_limit_lies_above_it() -> None:
    """A band above a line has no stroke below it."""
    found = beside(((0.0, 50.0), (80.0, 50.0)), 13.0, 5.0)
    assert found is not None
    ys = [y for stroke in found.strokes for _, y in stroke]
    assert min(ys) >= 37.0 - 1e-6
    assert max(ys) <= 50.0 + 1e-6
