from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.balance.chord import percent_of_chord, station_of_percent


@given(st.floats(-3000, 3000), st.floats(-3000, 3000), st.floats(10, 2000))
def test_there_and_back(station_mm: float, edge_mm: float, chord_mm: float) -> None:
    """A station's percentage leads back to the station."""
    percent = percent_of_chord(station_mm, edge_mm, chord_mm)
    assert station_of_percent(percent, edge_mm, chord_mm) == pytest.approx(station_mm, abs=1e-6)


def test_a_chord_of_nothing_is_refused() -> None:
    """Zero and not-a-number raise."""
    for chord in (0.0, float("nan")):
        with pytest.raises(ValueError, match="above 0 mm"):
            percent_of_chord(1.0, 0.0, chord)
