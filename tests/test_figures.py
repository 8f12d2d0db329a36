from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.figures import Figure, FigureSet, Input, merged, values_of

A = Input("mass.a.mass_g", 100.0, "g", 3.0)
B = Input("mass.b.mass_g", 50.0, "g", 4.0, "measured", "measurement.m.value", "tolerance in the file")
C = Input("item.c.mass_g", 20.0, "g", 1.0, "assumed")
SMALL = st.floats(-1e3, 1e3)


def figures(
    sensitivity: list[list[float]], extra: list[float] | None = None, inputs: tuple[Input, ...] = (A, B, C)
) -> FigureSet:
    """A set of as many figures as the matrix has rows."""
    count = len(sensitivity)
    return FigureSet(tuple(f"x.f{i}@s" for i in range(count)), np.arange(count, dtype=float), ("g",) * count,
                     inputs, np.array(sensitivity).reshape(count, len(inputs)),
                     None if extra is None else np.array(extra), ("label",) * count, {}, "sum")  # fmt: skip


def test_uncertainty_is_the_root_of_the_sum_of_squares() -> None:
    """3 and 4 make 5; with 12 of the method's own, 13."""
    assert figures([[1, 1, 0]]).u == pytest.approx([5.0])
    assert figures([[1, 1, 0]], [12.0]).u == pytest.approx([13.0])
    assert figures([[0, 0, 0]]).u == pytest.approx([0.0])
    assert figures([[]], inputs=()).u == pytest.approx([0.0])
    assert figures([[]], [2.0], ()).u == pytest.approx([2.0])


def test_inputs_that_work_against_each_other_add_up_all_the_same() -> None:
    """They are independent; only through one input can effects cancel."""
    assert figures([[1, -1, 0]]).u == pytest.approx([5.0])


@given(st.lists(st.tuples(SMALL, SMALL, SMALL), min_size=1, max_size=6), st.floats(0.0, 50.0))
def test_uncertainty_agrees_with_the_full_covariance(
    rows: list[tuple[float, float, float]], extra: float
) -> None:
    """The diagonal of S·V·S' plus the method's own."""
    matrix = np.array(rows)
    covariance = matrix @ np.diag([9.0, 16.0, 1.0]) @ matrix.T
    expected = np.sqrt(np.diag(covariance) + extra**2)
    found = figures([list(row) for row in rows], [extra] * len(rows))
    assert np.allclose(found.u, expected, rtol=1e-9, atol=1e-9)


def test_a_figure_lists_its_parents_by_their_share() -> None:
    """Largest share of the variance first; what does not move it is left out; ties stay in order."""
    one = figures([[2.0, 0.5, 0.0], [0.0, 0.75, 3.0]]).figure("x.f0@s")
    assert one.parents == (("mass.a.mass_g", 2.0), ("mass.b.mass_g", 0.5))
    other = figures([[2.0, 0.5, 0.0], [0.0, 0.75, 3.0]]).figure("x.f1@s")
    assert other.parents == (("mass.b.mass_g", 0.75), ("item.c.mass_g", 3.0))
    assert (other.value, other.unit, other.kind, other.label, other.method) == (1.0, "g", "computed", "label", "sum")


def test_a_figure_that_is_not_there_is_named() -> None:
    """With those that are."""
    with pytest.raises(KeyError, match=r"no figure 'x.f9@s' here; there are x.f0@s"):
        figures([[1, 1, 1]]).figure("x.f9@s")


@pytest.mark.parametrize("row, only", [([0, 0, 1], True), ([1, 0, 1], False), ([0, 0, 0], False), ([0, 1, 0], False)])
def test_whether_a_figure_rests_on_what_is_assumed(row: list[float], *, only: bool) -> None:
    """Only where every input that moves it is assumed, and there is one."""
    assert figures([row]).rests_on_assumed_only("x.f0@s") is only


def test_what_is_printed_after_the_sign_is_twice_u() -> None:
    """And JSON holds u."""
    one = Figure("balance.cg-x@ref", 249.7, "mm", 1.5, "computed", label="CG")
    assert one.expanded == 3.0
    assert one.as_json() == {"address": "balance.cg-x@ref", "value": 249.7, "unit": "mm", "u": 1.5,
                             "kind": "computed", "label": "CG"}  # fmt: skip


def test_inputs_of_several_lists_are_taken_once() -> None:
    """In the order of first use, each with its column."""
    inputs, columns = merged([(A, B), (B, C), ()])
    assert inputs == (A, B, C)
    assert columns == {"mass.a.mass_g": 0, "mass.b.mass_g": 1, "item.c.mass_g": 2}
    assert values_of(inputs) == pytest.approx([100.0, 50.0, 20.0])
    assert values_of([]).shape == (0,)
