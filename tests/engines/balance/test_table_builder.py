from __future__ import annotations

import numpy as np

from hardstand.engines.balance.table_builder import TableBuilder
from hardstand.figures import Input


def test_an_address_seen_twice_is_one_cause() -> None:
    """Two components that stand at one place share its inputs; each has its own mass."""
    build = TableBuilder(2)
    place = tuple(Input(f"item.tank.at_mm.{axis}", 0.0, "mm", 2.0) for axis in "xyz")
    for name in ("tank", "fuel"):
        mass = Input(f"{name}.mass_g", 5.0, "g", 1.0)
        build.add(
            (name, name, "tank"),
            np.array([5.0, 0.0]),
            np.zeros(3),
            np.zeros((2, 3, 3)),
            [(mass, np.array([1.0, 0.0]))],
            (place[0], place[1], place[2]),
        )
    table = build.table(["a", "b"])
    assert [one.address for one in table.inputs] == [
        "tank.mass_g",
        "item.tank.at_mm.x",
        "item.tank.at_mm.y",
        "item.tank.at_mm.z",
        "fuel.mass_g",
    ]
    assert table.by_place.column.tolist() == [1, 2, 3, 1, 2, 3]
    assert table.mass_g.tolist() == [[5.0, 5.0], [0.0, 0.0]]
