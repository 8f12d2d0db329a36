from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.model import MassTable
from tests.aeroplanes import SMALL, WEIGHED, assessed


def test_inertia_is_that_of_points_and_boxes() -> None:
    """Izz of every state by the definition, component by component."""
    found = assessed()
    table: MassTable = found.results["balance.masses"]
    for row, state in enumerate(table.state_ids):
        mass, at = table.mass_g[row], table.at_mm[row]
        offset = at - mass @ at / mass.sum()
        izz = float(np.sum(mass * (offset[:, 0] ** 2 + offset[:, 1] ** 2))) * 1e-9
        izz += float(table.own_kgm2[row, :, 2, 2].sum())
        assert found.figure(f"balance.izz@{state}").value == pytest.approx(izz)


def test_the_built_figures_stand_beside_the_updated_ones() -> None:
    """A weigh-in leaves the sum of the parts as it was."""
    weighed = assessed(SMALL, WEIGHED.format(nose=1085, left=3935, right=3925))
    for name in ("mass", "cg-x", "cg-y", "cg-z"):
        address = f"balance.built-{name}@full"
        assert weighed.figure(address).as_json() == assessed().figure(address).as_json()
        assert weighed.set_of(f"balance.{name}@full").steps[f"balance.{name}@full"] == (address,)
