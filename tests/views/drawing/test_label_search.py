"""The search for places: it never lets two names clash, and finds what a thorough search finds, or nearly."""

from __future__ import annotations

from itertools import product

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from hardstand.views.drawing.boxes import crossed, overlap, stacked
from hardstand.views.drawing.label_search import Places, best_places

PLACE = st.tuples(st.integers(0, 9), st.integers(0, 9))
NAMES = st.lists(st.lists(PLACE, min_size=1, max_size=4, unique=True), min_size=1, max_size=4)


def places(spots: list[tuple[int, int]], number: int) -> Places:
    """Boxes of 20 by 10 on a grid, with leaders from a dot of the name's own below them."""
    boxes = [(12.0 * a, 8.0 * b, 12.0 * a + 20.0, 8.0 * b + 10.0) for a, b in spots]
    dot = (15.0 + 37.0 * number, 140.0)
    leaders = [(*dot, box[0] + 1.0, box[3]) for box in boxes]
    cost = np.array([np.hypot(lead[2] - lead[0], lead[3] - lead[1]) for lead in leaders])
    order = np.argsort(cost, kind="stable")
    return Places(stacked(boxes)[order], stacked(leaders)[order], cost[order])


def clash(every: list[Places], i: int, a: int, j: int, b: int) -> bool:
    """Whether place a of name i and place b of name j get in one another's way."""
    box, lead = every[i].box[a][None], every[i].leader[a][None]
    other, other_lead = every[j].box[b][None], every[j].leader[b][None]
    return bool(overlap(box, other)[0, 0] or crossed(box, other_lead)[0, 0] or crossed(other, lead)[0, 0])


@given(NAMES)
def test_names_that_are_placed_do_not_clash(spots: list[list[tuple[int, int]]]) -> None:
    """No two chosen places overlap, and no leader runs through the other's name."""
    every = [places(one, k) for k, one in enumerate(spots)]
    chosen = best_places(every, 0.0)
    taken = [(k, one) for k, one in enumerate(chosen) if one is not None]
    for n, (i, a) in enumerate(taken):
        for j, b in taken[n + 1 :]:
            assert not clash(every, i, a, j, b)


@given(NAMES)
def test_at_most_one_name_fewer_is_placed_than_can_be(spots: list[list[tuple[int, int]]]) -> None:
    """Against trying all combinations: what is left out is at most one name of up to four."""
    every = [places(one, k) for k, one in enumerate(spots)]
    most = 0
    for combination in product(*[[None, *range(len(one.cost))] for one in every]):
        taken = [(k, one) for k, one in enumerate(combination) if one is not None]
        fits = all(not clash(every, i, a, j, b) for n, (i, a) in enumerate(taken)
                   for j, b in taken[n + 1 :])  # fmt: skip
        most = max(most, len(taken) if fits else 0)
    placed = sum(one is not None for one in best_places(every, 0.0))
    assert placed >= most - 1


def test_a_name_alone_takes_its_cheapest_place() -> None:
    """With nothing in its way the first place is taken."""
    assert best_places([places([(9, 0), (2, 9)], 0)], 1.0) == [0]


def test_no_names_are_no_work() -> None:
    """An empty drawing, and a name without any place, are answered."""
    empty = Places(np.zeros((0, 4)), np.zeros((0, 4)), np.zeros(0))
    assert best_places([], 1.0) == []
    assert best_places([empty], 1.0) == [None]
