from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from hardstand.views.ink import text_of, width_of
from hardstand.views.table import Column, table

WORDS = st.text(alphabet="abc d", max_size=30)


@given(st.lists(st.tuples(WORDS, WORDS, WORDS), max_size=6), st.integers(50, 120))
def test_no_row_is_wider_than_the_measure(rows: list[tuple[str, str, str]], measure: int) -> None:
    """Columns are left out and flowed until the table fits."""
    columns = (Column("one"), Column("two", rank=1), Column("three", flowed=True))
    made = table(columns, rows, measure)
    assert all(width_of(text_of(one)) <= measure for one in made)


def test_the_least_needed_column_goes_first() -> None:
    """The column of the highest rank is left out, the others stay."""
    columns = (Column("keep"), Column("spare", rank=2), Column("useful", rank=1))
    head = text_of(table(columns, [("a" * 10, "b" * 10, "c" * 10)], 25)[0])
    assert "keep" in head
    assert "useful" in head
    assert "spare" not in head


def test_decimal_points_stand_under_one_another() -> None:
    """Figures of one column agree at the point, whatever follows it."""
    rows = [("3.25 mm",), ("12 mm",), ("−100.0 mm",)]
    made = [text_of(one) for one in table((Column("gap", "figure"),), rows, 40, head=False)]
    assert made[0].index(".") == made[2].index(".") == made[1].index(" mm")
