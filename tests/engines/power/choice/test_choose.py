"""The choice by itself: against every size tried one by one, and what more current or length asks."""

from __future__ import annotations

from math import pi, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.harness.rules_load import THIN_MM2
from hardstand.engines.harness.supply import WIRE_A_MM2
from hardstand.engines.power.choice.choose import Warming, chosen, least_mm2, warm_degc
from hardstand.engines.power.choice.plugs import smallest_class
from hardstand.engines.power.choice.sizes import AWG, MM2, Ladder
from hardstand.engines.power.choice.warmth import MELTS_DEGC
from hardstand.engines.power.defaults import LASTING_A_MM2, PACK_MM2
from hardstand.standards.contacts import CONTACTS

AMPERES, LENGTHS = st.floats(0.05, 60.0), st.floats(20.0, 4000.0)
HEAT, SQUARES, LADDERS = st.floats(0.0, 8.0), st.floats(1.0, 200.0), st.sampled_from([AWG, MM2])
MOST_V, MOST_DEGC, INSIDE_DEGC = 0.5, 80.0, 45.0


def warming(current_a: float, others_w_m: float = 0.0, others_mm2: float = 0.0, u: float = 0.0) -> Warming:
    """One lead of two wires among others."""
    one = np.array([current_a])
    return Warming(one, np.array([2.0]), np.array([others_w_m]), np.array([others_mm2]), INSIDE_DEGC,
                   np.array([u]), u, 100.0 * u)  # fmt: skip


def place(ladder: Ladder, current_a: float, length_mm: float, these: Warming) -> int:
    """Which size is chosen for a lead by itself; one past the last where none does."""
    least = {"drop": least_mm2(np.array([current_a * length_mm]), np.array([MOST_V])),
             "load": np.array([current_a / LASTING_A_MM2])}  # fmt: skip
    return int(chosen(ladder, least, these, MOST_DEGC)[0][0])


def does(area_mm2: float, current_a: float, length_mm: float, heat_w_m: float, squares_mm2: float) -> bool:
    """Whether one size does, step by step: warm copper found by going round until it stays."""
    ohm_m = 1.0 / 58.0 / area_mm2
    if 2.0 * ohm_m * 1e-3 * length_mm * current_a > MOST_V or current_a > 10.0 * area_mm2:
        return False
    outside_mm = 1.13 * sqrt(4.0 * area_mm2 / pi) + 2.0 * (0.3 + 0.10 * sqrt(4.0 * area_mm2 / pi))
    for around_w_m, around_mm2 in ((0.0, 0.0), (heat_w_m, squares_mm2)):
        cool_w_m = 2.0 * current_a**2 * 1.03 * ohm_m + around_w_m
        surface_m2 = pi * 1.2e-3 * sqrt(2.0 * outside_mm**2 + around_mm2)
        degc = INSIDE_DEGC
        for _ in range(400):
            degc = INSIDE_DEGC + cool_w_m * (1.0 + 0.00393 * (degc - 20.0)) / (17.0 * surface_m2)
            if degc > MOST_DEGC:
                return False
    return True


@given(LADDERS, AMPERES, LENGTHS, HEAT, SQUARES)
def test_the_chosen_size_is_the_first_that_does(
    ladder: Ladder, current_a: float, length_mm: float, heat_w_m: float, squares_mm2: float
) -> None:
    """Against every size of the ladder tried one by one, from the thinnest."""
    found = place(ladder, current_a, length_mm, warming(current_a, heat_w_m, squares_mm2))
    tried = [does(float(one), current_a, length_mm, heat_w_m, squares_mm2) for one in ladder.area_mm2]
    assert found == (tried.index(True) if True in tried else len(tried))


@given(LADDERS, AMPERES, LENGTHS, st.floats(1.0, 3.0), st.floats(1.0, 3.0), st.floats(0.0, 0.2))
def test_more_current_or_length_never_asks_for_thinner_wire(
    ladder: Ladder, current_a: float, length_mm: float, more: float, longer: float, u: float
) -> None:
    """The place in the ladder only grows, with each alone and with what is uncertain."""
    first = place(ladder, current_a, length_mm, warming(current_a))
    assert place(ladder, more * current_a, length_mm, warming(more * current_a)) >= first
    assert place(ladder, current_a, longer * length_mm, warming(current_a)) >= first
    assert place(ladder, current_a, length_mm, warming(current_a, u=u)) >= first


@given(AMPERES, HEAT, SQUARES)
def test_thicker_wire_is_cooler(current_a: float, heat_w_m: float, squares_mm2: float) -> None:
    """From size to size of both ladders, alone or tied to others."""
    for ladder in (AWG, MM2):
        warm = warm_degc(warming(current_a, heat_w_m, squares_mm2), ladder.area_mm2[None, :])[0]
        assert (np.diff(warm) <= 1e-9).all()
        assert (warm <= MELTS_DEGC).all()


@pytest.mark.parametrize(
    "current_a, length_mm, binds",
    [(0.05, 100.0, "size"), (7.0, 2000.0, "drop"), (11.0, 100.0, "load"), (9.0, 50.0, "warmth")],
)
def test_what_asks_for_the_wire_is_named(current_a: float, length_mm: float, binds: str) -> None:
    """A long lead by its drop, a short one by its warmth or its load, a faint one by the least size."""
    least = {"drop": least_mm2(np.array([current_a * length_mm]), np.array([MOST_V])),
             "load": np.array([current_a / LASTING_A_MM2 if binds == "load" else 0.0])}  # fmt: skip
    these = warming(current_a if binds == "warmth" else 0.0)
    assert chosen(AWG, least, these, MOST_DEGC)[1] == (binds,)


def test_no_size_is_thick_enough_for_everything() -> None:
    """What no wire of the ladder can do has a place past its end."""
    assert place(AWG, 60.0, 4000.0 * 60, warming(60.0)) == len(AWG.sizes)


def test_a_size_is_as_thick_as_itself() -> None:
    """The metal that is there, asked for to the bit, is not rounded up to the next size."""
    for ladder in (AWG, MM2):
        none = np.zeros(len(ladder.sizes))
        at, _ = chosen(ladder, {"volts": np.array(ladder.area_mm2)},
                       Warming(none, none + 2.0, none, none, 45.0, none), MOST_DEGC)  # fmt: skip
        assert at.tolist() == list(range(len(ladder.sizes)))


@given(st.floats(0.0, 100.0), st.integers(2, 14))
def test_the_class_of_plug_carries_its_current(current_a: float, conductors: int) -> None:
    """It has poles enough, plus and minus carry their share, and no class with fewer poles would do."""
    def carries(name: str) -> bool:
        one = CONTACTS[name]
        if one.poles is None or one.poles < conductors:
            return False
        return one.current_a * ((one.poles - (conductors - 2)) // 2) >= current_a

    found = smallest_class(current_a, conductors)
    able = [name for name in CONTACTS if carries(name)]
    assert bool(found) is bool(able)
    if found:
        assert found in able
        assert CONTACTS[found].poles == min(CONTACTS[one].poles or 0 for one in able)


def test_load_and_least_metal_are_those_of_the_harness() -> None:
    """What harness.wire-load and harness.fuse-missing ask is asked here too."""
    assert (LASTING_A_MM2, PACK_MM2) == (WIRE_A_MM2, THIN_MM2)
