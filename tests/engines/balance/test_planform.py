"""Area, mean aerodynamic chord and prolonged roots."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.balance.gross_geometry import (
    aspect_ratio,
    neutral_point_from_slopes,
    tail_volume,
    taper_ratio,
)
from hardstand.engines.balance.lift_slope import datcom_lift_slope, swept_wing_lift_slope
from hardstand.engines.balance.panel import Panel, Section, carried_to_centreline
from hardstand.engines.balance.planform import planform, tapered_mac_mm, tapered_mac_y_mm

chords = st.floats(50.0, 800.0)


def _panel(*numbers: float, mirrored: bool = True) -> Panel:
    return Panel(Section(*numbers[:4]), Section(*numbers[4:]), mirrored)


@given(chords, chords, st.floats(100.0, 2000.0), st.floats(-500.0, 900.0))
def test_one_panel_agrees_with_the_taper_formulas(
    root: float, tip: float, semispan: float, sweep: float
) -> None:
    """The integral over a single panel is the closed form for straight taper."""
    shape = planform([_panel(100.0, 0.0, 0.0, root, 100.0 + sweep, semispan, 0.0, tip)])
    taper = taper_ratio(root, tip)
    assert shape.area_mm2 == pytest.approx((root + tip) * semispan)
    assert shape.mac_mm == pytest.approx(tapered_mac_mm(root, taper))
    assert shape.mac_y_mm == pytest.approx(tapered_mac_y_mm(semispan, taper))
    assert shape.mac_x_mm == pytest.approx(100.0 + sweep * shape.mac_y_mm / semispan)
    assert shape.aspect_ratio == pytest.approx(aspect_ratio(2.0 * semispan, shape.area_mm2))


@given(st.floats(0.01, 0.99), chords, chords)
def test_a_cut_changes_nothing(share: float, root: float, tip: float) -> None:
    """Cutting a panel in two leaves area, chord and place as they were."""
    whole = _panel(0.0, 0.0, 0.0, root, 300.0, 1000.0, 40.0, tip)
    middle = whole.section_at(1000.0 * share)
    parts = planform([Panel(whole.root, middle), Panel(middle, whole.tip)])
    one = planform([whole])
    for name in ("area_mm2", "span_mm", "mac_mm", "mac_y_mm", "mac_x_mm"):
        assert getattr(parts, name) == pytest.approx(getattr(one, name))


def test_cranked_wing_against_sums_by_hand() -> None:
    """A square inner panel and a triangular outer one, added up on paper."""
    shape = planform([_panel(0, 0, 0, 300, 0, 300, 0, 300), _panel(0, 300, 0, 300, 300, 600, 0, 0)])
    # Half area 90000 + 45000; int c^2 27e6 + 9e6; first moments about y = 0 and x = 0.
    assert shape.area_mm2 == pytest.approx(270e3)
    assert shape.mac_mm == pytest.approx(36e6 / 135e3)
    assert shape.mac_y_mm == pytest.approx((90e3 * 150 + 45e3 * 400) / 135e3)
    assert shape.mac_x_mm == pytest.approx(45e3 * 100 / 135e3)


def test_both_halves_given_or_mirrored() -> None:
    """Two unmirrored halves are the same planform as one mirrored half."""
    numbers = (980.0, 0.0, -25.0, 560.0, 1500.0, 1000.0, -25.0, 200.0)
    port = (980.0, 0.0, -25.0, 560.0, 1500.0, -1000.0, -25.0, 200.0)
    halves = [_panel(*numbers, mirrored=False), _panel(*port, mirrored=False)]
    both, one = planform(halves), planform([_panel(*numbers)])
    for name in ("area_mm2", "span_mm", "mac_mm", "mac_y_mm", "mac_x_mm"):
        assert getattr(both, name) == pytest.approx(getattr(one, name))


def test_percent_of_chord_there_and_back() -> None:
    """A station turned into a fraction of the chord turns back into itself."""
    shape = planform([_panel(980, 0, -25, 560, 1500, 1000, -25, 200)])
    assert shape.x_at(shape.fraction_at(1339.0)) == pytest.approx(1339.0)


def test_carried_to_centreline_keeps_the_edges_straight() -> None:
    """The prolonged root lies on the lines of the exposed edges; other panels stay."""
    inner = _panel(1960, 95, 55, 310, 2160, 480, 55, 140)
    outer = _panel(2160, 480, 55, 140, 2200, 500, 55, 100)
    first, second = carried_to_centreline([inner, outer])
    assert first.root.y_mm == 0.0
    assert first.tip == inner.tip
    assert second == outer
    assert first.section_at(95.0).chord_mm == pytest.approx(310.0)
    assert first.section_at(95.0).x_mm == pytest.approx(1960.0)
    assert carried_to_centreline([first, second]) == (first, second)


@pytest.mark.parametrize(
    "numbers",
    [
        (0.0, 100.0, 0.0, 300.0, 0.0, 100.0, 0.0, 200.0),  # no span: a fin
        (0.0, 200.0, 0.0, 300.0, 0.0, 100.0, 0.0, 200.0),  # tip inside root
        (0.0, -10.0, 0.0, 300.0, 0.0, 100.0, 0.0, 200.0),  # crosses the centreline
        (0.0, 0.0, 0.0, 300.0, 0.0, -100.0, 0.0, 200.0),  # mirrored, but port
        (0.0, 0.0, 0.0, 0.0, 0.0, 100.0, 0.0, 200.0),  # no root chord
        (0.0, 0.0, 0.0, 300.0, 0.0, 100.0, 0.0, -1.0),
        (float("nan"), 0.0, 0.0, 300.0, 0.0, 100.0, 0.0, 200.0),
    ],
)
def test_impossible_panels_are_refused(numbers: tuple[float, ...]) -> None:
    """A panel that no planform can hold raises at once."""
    with pytest.raises(ValueError, match=r"chord|panel|finite"):
        _panel(*numbers)


def test_no_panel_no_planform() -> None:
    """A planform of nothing is refused."""
    with pytest.raises(ValueError, match="at least one"):
        planform([])


@given(st.floats(1.0, 15.0), st.floats(-60.0, 60.0))
def test_two_letters_of_one_lift_formula(aspect: float, sweep: float) -> None:
    """The swept Helmbold form and the DATCOM form are one formula at a section slope of 2 pi."""
    assert datcom_lift_slope(aspect, sweep) == pytest.approx(swept_wing_lift_slope(aspect, sweep))


def test_ratios() -> None:
    """Tail volume grows with arm and area; a stable slope puts the neutral point behind the CG."""
    assert tail_volume(20e3, 340.0, 100e3, 100.0) == pytest.approx(2 * 0.34)
    assert neutral_point_from_slopes(0.3, -0.5, 5.0) == pytest.approx(0.4)
