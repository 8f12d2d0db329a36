from __future__ import annotations

import pytest

from hardstand.engines.fit.placement import NotFreeError, freedoms
from tests.engines.fit.placement.translated import assessed
from tests.small_placement import TEXT


def test_a_range_binds_the_other_axis_and_the_turn() -> None:
    """An item with a range along x stays at its y and keeps its turn; others go all over."""
    found, held = freedoms(assessed({"aeroplane.toml": TEXT})[0])
    by_id = {one.item.id: one for one in found}
    assert by_id["weight"].x_mm == (180.0, 240.0)
    assert by_id["weight"].y_mm == (0.0, 0.0)
    assert by_id["weight"].turns == (0,)
    assert (by_id["hub"].x_mm, by_id["hub"].turns) == (None, (0, 1, 2, 3))
    assert held == {}
    assert "sink" not in by_id


def test_what_is_mounted_on_another_item_stays_unless_it_is_named() -> None:
    """An item that rests on another is not moved by itself, with the reason; named it may move."""
    text = TEXT.replace("at_mm = [150, 0]", 'at_mm = [150, 0]\nsupports = ["pump"]')
    asbuilt = assessed({"aeroplane.toml": text})[0]
    found, held = freedoms(asbuilt)
    assert held == {"hub": "is fixed to pump", "pump": "is fixed to hub"}
    named, _ = freedoms(asbuilt, ("hub",))
    assert [one.item.id for one in named] == ["hub"]
    assert [one.item.id for one in found] == ["weight"]


@pytest.mark.parametrize("item, why", [("sink", "stands on no tray"), ("hb", "is no item")])
def test_what_cannot_move_is_refused_by_name(item: str, why: str) -> None:
    """Asking for an item off the trays, or for none, is refused with the reason."""
    with pytest.raises(NotFreeError, match=why):
        freedoms(assessed({"aeroplane.toml": TEXT})[0], (item,))
