from __future__ import annotations

from dataclasses import replace

import pytest

from hardstand.changes import Change
from hardstand.description.catalogue import resolve
from hardstand.description.items import OnHand
from hardstand.description.parts import Part
from hardstand.engines.balance.pack_kinds import kinds_of, may_replace, pack_changes
from tests.aeroplanes import SMALL, as_built

ITEM = (
    SMALL
    + """
[[item]]
id = "pack-a"
part = "pack-li-po-2s-1800"
at_mm = [300, 0, 0]
"""
)


def part(name: str) -> Part:
    """A part of the catalogue."""
    return resolve(name).part


BUILT = as_built(ITEM)
PACK = next(item for item in BUILT.items if item.id == "pack-a")
MASS = next(point for point in BUILT.masses if point.id == "pack-a")


@pytest.mark.parametrize(
    "other, named, may",
    [
        ("pack-li-po-2s-1300", (), True),
        ("pack-li-po-3s-2200", (), False),
        ("pack-li-po-3s-2200", ("pack-a",), True),
        ("pack-li-po-2s-1300", ("pack-b",), False),
        ("receiver-12-channel", ("pack-a",), False),
    ],
)
def test_which_pack_may_take_a_place(other: str, named: tuple[str, ...], may: bool) -> None:
    """As stated, else the same cells and chemistry; what is no pack never."""
    hand = OnHand(id="spare", part=other, instead_of=named)
    assert may_replace(hand, part(other), PACK) is may


def test_packs_of_which_nobody_states_the_cells_replace_nothing_by_themselves() -> None:
    """Unknown is not alike."""
    unknown = part("pack-li-po-2s-1800").model_copy(update={"cells": None})
    item = replace(PACK, part=unknown)
    assert not may_replace(OnHand(id="spare", part="x"), unknown, item)


def test_kinds_count_what_is_fitted_and_at_hand() -> None:
    """Two on the shelf and one fitted make three of a kind."""
    hand = [OnHand(id="spare", part=PACK.part.id, count=2)]
    (kind,) = kinds_of([PACK], {"pack-a": MASS}, hand, {PACK.part.id: PACK.part})
    assert (kind.count, kind.mass_g) == (3, MASS.mass.value)


def test_what_a_row_says_of_its_own_pack_goes_with_it() -> None:
    """A mass and a size of its own are taken out with the pack; without them the part alone changes."""
    assert pack_changes(PACK, MASS, "other") == [Change("item.pack-a.part", PACK.part.id, "other")]
    own = as_built(ITEM + "mass_g = 99\nsize_mm = [90, 34, 20]\n")
    item = next(one for one in own.items if one.id == "pack-a")
    mass = next(one for one in own.masses if one.id == "pack-a")
    assert pack_changes(item, mass, "other")[1:] == [
        Change("item.pack-a.mass_g", 99.0, None),
        Change("item.pack-a.size_mm", [90.0, 34.0, 20.0], None),
    ]
