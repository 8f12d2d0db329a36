from __future__ import annotations

from dataclasses import replace

import pytest

from hardstand.engines.fit.layout.board import board, held_board
from hardstand.engines.fit.layout.cost import evaluate, faults
from hardstand.engines.fit.layout.insertion import State, best_insertion
from hardstand.engines.fit.layout.problem import Apart, Spot
from hardstand.engines.fit.layout.search import built
from tests.engines.fit.layout.small_problems import every_spot, small_problem


@pytest.mark.parametrize("seed", range(12))
def test_the_best_insertion_is_the_best_of_all_places(seed: int) -> None:
    """Trying every legal place of the last item finds none cheaper than the insertion found."""
    problem = small_problem(seed, items=4)
    made = board(problem)
    standings = built(made, 1)
    if standings is None:
        pytest.skip("no room for all items in this draw")
    state = State(made, [*standings[:-1], None])
    found = best_insertion(state, 3)
    assert found is not None
    layout = made.layout(standings)
    tried = [(*layout[:-1], spot) for spot in every_spot(problem, problem.items[3])]
    legal = [one for one in tried if not faults(problem, one)]
    least = min(evaluate(problem, one).total for one in legal)
    mine = made.layout([*standings[:-1], found.standing])
    assert not faults(problem, mine)
    assert evaluate(problem, mine).total == least


def test_holding_items_leaves_others_the_places_they_had() -> None:
    """A board with one item free has exactly the positions that are legal beside the others."""
    problem = small_problem(3, items=3)
    made = board(problem)
    standings = built(made, 1)
    assert standings is not None
    held = held_board(made, standings, {2})
    layout = made.layout(standings)
    for spot in every_spot(problem, problem.items[2]):
        legal = not faults(problem, (*layout[:2], spot))
        allowed = any(
            stance.turn == spot.turn
            and problem.trays[stance.tray].id == spot.tray
            and stance.allows(spot.x_mm, spot.y_mm)
            for stance in held.stances[2]
        )
        assert legal == allowed


def test_wishes_to_be_apart_are_part_of_the_insertion() -> None:
    """With a strong wish to be apart the last item goes farther off than without."""
    problem = replace(small_problem(5, items=2), balances=(), centred=(), leads=())
    wished = replace(problem, apart=(Apart(("item-0", "item-1"), 200, 50),))
    made = board(wished)
    first = (0, made.stances[0][0].x_mm, made.stances[0][0].y_mm)
    found = best_insertion(State(made, [first, None]), 1)
    assert found is not None
    spots: list[Spot] = every_spot(wished, wished.items[1])
    layout = made.layout([first, found.standing])
    least = min(evaluate(wished, (layout[0], spot)).total for spot in spots)
    assert evaluate(wished, layout).total <= 1.05 * least
