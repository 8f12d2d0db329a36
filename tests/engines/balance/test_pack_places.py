from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.pack_places import PackPlaces, combinations

LOW = np.array([[330.0, 340.0, np.nan], [330.0, 340.0, np.nan], [280.0, 280.0, 290.0]])
PACKS = np.array([172.0, 268.0, 198.0])


def test_stock_and_likeness_leave_only_what_can_be_built() -> None:
    """Two equal packs in parallel from a stock of two, the third place from what is left."""
    places = PackPlaces(PACKS, np.array([2, 2, 1]), LOW, LOW + 50.0, alike=((0, 1),))
    assert combinations(places).tolist() == [[0, 0, 1], [0, 0, 2], [1, 1, 0], [1, 1, 2]]


def test_what_cannot_be_searched_is_refused() -> None:
    """Too many ways, too few packs and stations the wrong way round raise."""
    with pytest.raises(ValueError, match="12 ways"):
        combinations(PackPlaces(PACKS, np.array([9, 9, 9]), LOW, LOW), limit=11)
    with pytest.raises(ValueError, match="no combination"):
        combinations(PackPlaces(PACKS, np.array([1, 1, 1]), LOW, LOW, alike=((0, 1),)))
    with pytest.raises(ValueError, match="must not lie behind"):
        combinations(PackPlaces(PACKS, np.array([9, 9, 9]), LOW, LOW - 1.0))
