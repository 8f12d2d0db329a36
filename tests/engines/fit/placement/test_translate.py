from __future__ import annotations

import numpy as np
import pytest

from hardstand.cli.begin import demo_texts
from hardstand.engines.fit.layout.board import board
from hardstand.engines.fit.layout.cost import evaluate, faults
from hardstand.engines.fit.layout.problem import Layout, Spot
from hardstand.engines.fit.layout.search import Rebuilder, repaired
from hardstand.engines.fit.placement import Translation, bindings, breakdown, cg_mm, places
from tests.engines.fit.placement.translated import assessed, translated
from tests.small_placement import TEXT, tight

CLASHES = ("no-go", "measure")


def written(text: str, made: Translation, layout: Layout) -> str:
    """The text with the items where a layout has them."""
    for one in places(made.shapes, layout):
        head, _, rest = text.partition(f'id = "{one.item}"\n')
        before, _, after = rest.partition("at_mm = ")
        _, _, after = after.partition("\n")
        x, y = one.at_mm
        turned = "\n".join(row for row in after.split("\n") if row != "turn_deg = 180")
        after = turned if one.item == "pump" else after
        text = (f'{head}id = "{one.item}"\n{before}at_mm = [{x}, {y}]\nturn_deg = {one.turn_deg}'
                f"\n{after}")  # fmt: skip
    return text


@pytest.mark.parametrize("seed", range(8))
def test_what_is_legal_for_the_solver_is_legal_in_three_dimensions(seed: int) -> None:
    """Any legal layout, found from anywhere, brings neither a no-go nor a doubt of the fit."""
    made = translated({"aeroplane.toml": TEXT})
    ready = board(made.problem)
    random = np.random.default_rng(seed)
    standings = None
    while standings is None:
        start = []
        for choices in ready.stances:
            a = int(random.integers(len(choices)))
            rows = np.argwhere(choices[a].free)
            i, j = rows[int(random.integers(len(rows)))]
            start.append((a, int(i) + choices[a].x_mm, int(j) + choices[a].y_mm))
        standings = repaired(ready, start, Rebuilder(ready, seed))
    layout = ready.layout(standings)
    assert not faults(made.problem, layout)
    _, assessment = assessed({"aeroplane.toml": written(TEXT, made, layout)})
    fit = [one for one in assessment.findings if one.code.startswith("fit.") and one.figure]
    assert [one.text for one in fit if one.severity in CLASHES] == []
    held = assessment.results["fit.containment"].checks
    assert {one.slug for one in held} >= {"tray-edge", "bay-gap", "plug-room"}


def test_a_box_may_stand_as_near_as_the_rules_let_it() -> None:
    """Two boxes on a shelf that is just long enough have a place; nothing is lost by rounding."""
    made = translated({"aeroplane.toml": tight(65)})
    shapes = list(made.shapes.values())
    length, width = shapes[0].length_mm, shapes[0].width_mm
    assert (length, width) == (31, 41)
    # Middles at 116 and 149: corners of the rectangles on the grid, half a millimetre shifted.
    spots = tuple(Spot("shelf", 0, x - length // 2, -(width // 2)) for x in (116, 149))
    assert not faults(made.problem, spots)
    nearer = tuple(Spot("shelf", 0, x - length // 2, -(width // 2)) for x in (116, 148))
    assert [one.what for one in faults(made.problem, nearer)] == ["collision"]


@pytest.mark.parametrize("moment", ["first-layout", "as-built"])
def test_the_demo_as_it_stands_is_legal_for_the_solver(moment: str) -> None:
    """The translation is exact enough that the demo, which the checks pass, is a legal layout."""
    made = translated(demo_texts(moment))
    assert faults(made.problem, made.start) == ()
    assert len(made.problem.items) >= 16


def test_the_parts_of_the_cost_add_up() -> None:
    """The breakdown in millimetres of thin lead is the solver's whole cost, and the CG is the checks'."""
    made = translated({"aeroplane.toml": TEXT})
    whole = evaluate(made.problem, made.start).total / 200.0
    assert sum(one.cost_mm for one in breakdown(made, made.start)) == pytest.approx(whole)
    _, assessment = assessed({"aeroplane.toml": TEXT})
    head = assessment.results["balance.headline"]
    there = cg_mm(made, made.start)
    assert there is not None
    assert there[0] == pytest.approx(head.cg_mm[0, 0], abs=0.01)


def test_moving_the_weight_moves_the_balance_as_its_mass_says() -> None:
    """Ten millimetres of 200 g change the CG by 2000 g mm over the whole mass."""
    made = translated({"aeroplane.toml": TEXT})
    k = [item.id for item in made.problem.items].index("weight")
    spot = made.start[k]
    moved = (*made.start[:k], Spot(spot.tray, spot.turn, spot.x_mm + 10, spot.y_mm),
             *made.start[k + 1 :])  # fmt: skip
    before, after = cg_mm(made, made.start), cg_mm(made, moved)
    assert before is not None
    assert after is not None
    assert made.target is not None
    assert after[0] - before[0] == pytest.approx(2000.0 / made.target.mass_g)


def test_what_binds_is_what_stands_in_the_way() -> None:
    """A box pulled against another names it, what a step would save, and which way."""
    made = translated({"aeroplane.toml": TEXT})
    numbers = {item.id: k for k, item in enumerate(made.problem.items)}
    layout = list(made.start)
    # The weight (20 mm) stands at 200; the hub, drawn aft by its heavy lead, up against it.
    half = made.shapes["hub"].length_mm // 2
    layout[numbers["hub"]] = Spot("shelf", 0, 172 - half, -(made.shapes["hub"].width_mm // 2))
    assert not [one for one in faults(made.problem, tuple(layout)) if "hub" in one.about]
    found = {one.item: one for one in bindings(made.problem, tuple(layout))}
    assert found["hub"].way == "aft"
    assert found["hub"].saves_mm > 0.0
    assert ("collision", ("weight",)) in [(one.what, one.about) for one in found["hub"].faults]
