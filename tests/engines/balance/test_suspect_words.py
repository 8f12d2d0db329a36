from __future__ import annotations

import pytest

from hardstand.engines.balance.build_up import build_up, observed_weigh_in
from hardstand.engines.balance.slips import fixed_slips, item_slips
from hardstand.engines.balance.suspect_words import LEVEL, SCALE, STATION, Entry, in_words
from hardstand.engines.balance.suspects import Suspect

FIN = Entry("Fin", 168.0, 2100.0)


def suspect(kind: str, size: float, unit: str = "g", item: int = 0) -> Suspect:
    """A suspect of one kind and size."""
    return Suspect(kind, item, unit, size, 1.0, 1.0, 1.0, 1.0, 0.5, 1.0, 0.5)


@pytest.mark.parametrize(
    "kind, size, unit, words",
    [
        ("mass", -18.0, "g", "Fin weighs 18.0 g less than the 168 g entered"),
        ("place along x", 30.0, "mm", "Fin sits 30.0 mm farther aft than at station 2100"),
        ("place along y", -9.0, "mm", "Fin sits 9.0 mm farther to port than entered"),
        ("counted twice", -168.0, "g", "Fin (168 g) is entered twice, or not on board"),
        (
            "two digits of the mass swapped",
            18.0,
            "g",
            "Fin weighs 186 g, not 168 g (two digits swapped)",
        ),
    ],
)
def test_slips_of_an_entry(kind: str, size: float, unit: str, words: str) -> None:
    """What is true beside what was entered."""
    assert in_words(suspect(kind, size, unit), FIN, None) == words


@pytest.mark.parametrize(
    "kind, size, unit, words",
    [
        (
            "missing item",
            40.0,
            "g",
            "something of 40.0 g near station 350 is on board and not entered",
        ),
        (
            "missing item",
            -40.0,
            "g",
            "something of 40.0 g near station 350 is entered and not on board",
        ),
        (LEVEL, 1.0, "deg", "the nose stood 1.0° lower on the scales than stated"),
        (f"{SCALE} left", -12.0, "g", "the scale of left showed 12.0 g too little"),
        (
            f"{STATION} nose-leg",
            20.0,
            "mm",
            "nose-leg touches its scale 20.0 mm farther forward than entered",
        ),
    ],
)
def test_slips_of_the_weighing(kind: str, size: float, unit: str, words: str) -> None:
    """What was wrong about the weigh-in itself."""
    assert in_words(suspect(kind, size, unit, -1), None, 350.0) == words


def test_every_kind_of_slip_has_words() -> None:
    """No slip that can be suspected is without a sentence."""
    prior = build_up([168.0, 900.0], [[100.0, 20.0], [900.0, -5.0]], [2.0, 2.0], [2.0, 2.0])
    import numpy as np

    seen = observed_weigh_in(prior, 1100.0, 700.0, 0.0, np.eye(3))
    for slip in (*item_slips(prior, seen), *fixed_slips(prior, seen)):
        size = 10.0 if slip.fixed is None else slip.fixed
        assert in_words(suspect(slip.kind, size, slip.unit), FIN, None).startswith("Fin ")
