from __future__ import annotations

import numpy as np
import pytest
import shapely
import shapely.affinity

from hardstand.engines.fit.layout.cost import evaluate, faults
from hardstand.engines.fit.layout.problem import Apart, Item, Place, Problem, Spot, Tray
from tests.engines.fit.layout.small_problems import small_problem


def turned_box(item: Item, spot: Spot, width_mm: float = 0.0) -> shapely.Polygon:
    """The box of an item by a geometry library: turned about its corner, then moved to the spot."""
    length, width, _ = item.size_mm
    box = shapely.affinity.rotate(shapely.box(0, 0, length, width), 90 * spot.turn, origin=(0, 0))
    x, y, _, _ = box.bounds
    moved = shapely.affinity.translate(box, spot.x_mm - x, spot.y_mm - y)
    return shapely.set_precision(moved, 0.5) if not width_mm else moved


@pytest.mark.parametrize("seed", range(20))
def test_boxes_collide_where_a_geometry_library_says_so(seed: int) -> None:
    """Without plug rooms, boxes have a collision exactly when their polygons share an area."""
    rng = np.random.default_rng(seed)
    base = small_problem(seed)
    items = tuple(Item(one.id, one.size_mm, one.places, turns=(0, 1, 2, 3)) for one in base.items)
    problem = Problem(base.trays, items)
    for _ in range(20):
        layout = tuple(
            Spot("slanted", int(rng.integers(4)), int(rng.integers(0, 8)), int(rng.integers(0, 6)))
            for _ in items
        )
        wrong = faults(problem, layout)
        boxes = [turned_box(item, spot) for item, spot in zip(items, layout, strict=True)]
        for i, one in enumerate(boxes):
            for j in range(i):
                meets = one.intersection(boxes[j]).area > 1e-9
                told = any(
                    set(fault.about) == {items[i].id, items[j].id}
                    for fault in wrong
                    if fault.what == "collision"
                )
                assert meets == told
            outline = shapely.Polygon(problem.trays[0].outline_mm)
            out = one.difference(outline).area > 1e-9
            named = [fault.about[0] for fault in wrong if fault.what == "outside"]
            assert out == (items[i].id in named)


def test_items_too_near_cost_what_they_fall_short() -> None:
    """Two middles 20 mm apart of a wished 50 cost 60 half millimetres times the weight."""
    tray = Tray("t", ((0, 0), (100, 0), (100, 50), (0, 50)))
    items = tuple(Item(name, (10, 10, 5), (Place("t"),)) for name in "ab")
    problem = Problem((tray,), items, apart=(Apart(("a", "b"), 50, 3),))
    layout = (Spot("t", 0, 0, 0), Spot("t", 0, 15, 5))
    assert evaluate(problem, layout).apart == 180
    assert evaluate(problem, (layout[0], Spot("t", 0, 50, 0))).total == 0


def test_a_fixed_item_that_was_moved_is_a_fault() -> None:
    """The judge sees that an item stands elsewhere than it must."""
    tray = Tray("t", ((0, 0), (100, 0), (100, 50), (0, 50)))
    item = Item("a", (10, 10, 5), (Place("t"),), fixed=Spot("t", 0, 5, 5))
    problem = Problem((tray,), (item,))
    assert not faults(problem, (Spot("t", 0, 5, 5),))
    assert [one.what for one in faults(problem, (Spot("t", 0, 6, 5),))] == ["place"]
