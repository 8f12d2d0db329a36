from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from hardstand.views.ink import width_of
from hardstand.views.strip import Mark, Scale, scale_over, strip
from tests.small_aeroplane import printed

VALUES = st.floats(-1000, 1000)


@given(st.lists(st.tuples(VALUES, st.floats(0, 100)), min_size=1, max_size=6), st.integers(40, 120))
def test_every_pointer_stands_inside_its_bar(
    found: list[tuple[float, float]], measure: int
) -> None:
    """Each row has one pointer, between the ends of its tolerance, within the measure."""
    rows = printed(
        strip([Mark(f"s{at}", value, u) for at, (value, u) in enumerate(found)], measure)
    )
    assert all(width_of(row) <= measure for row in rows)
    for row in rows[2:]:
        assert row.count("▲") == 1
        if "├" in row and "┤" in row:
            assert row.index("├") < row.index("▲") < row.index("┤")


@given(st.lists(VALUES, min_size=2, max_size=8), st.integers(20, 120))
def test_the_ruler_keeps_the_order(values: list[float], cells: int) -> None:
    """What is further aft stands further right."""
    scale = scale_over(values, cells)
    placed = [scale.cell(value) for value in sorted(values)]
    assert placed == sorted(placed)
    assert placed[0] >= 0
    assert placed[-1] < cells


def test_ruler_figures_stand_over_their_values() -> None:
    """A tick's figure is where the value is, to half a cell."""
    ruler, ticks, *_ = printed(strip([Mark("a", 250.0, 5.0, (240.0, 260.0))], 60))
    scale: Scale = scale_over([245.0, 255.0, 240.0, 260.0], 57)
    assert ticks[3 + scale.cell(250.0)] == "┴"
    assert ruler[3 + scale.cell(250.0) - 1 :][:3] == "250"
