"""The fit engine on the demo aeroplane, against the clearances its scenario states.

The heights under the cockpit tub are the scenario's own computed table (an invented aeroplane): no
outside check of the geometry, but figures that were not made by this program.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

import hardstand
from hardstand.asbuilt import AsBuilt, build
from hardstand.description.read import read_folder
from tests.engines.fit.small_aeroplane import findings, results

DEMO = Path(hardstand.__file__).parent / "data" / "demo"
# Least height of the tub above each box of the main tray, mm, straight up.
HEIGHTS = {
    "distribution-unit+tub-middle": 4.95,
    "switch-panel+tub-right": 4.71,
    "receiver-front+tub-left": 3.80,
    "gear-controller+tub-right": 5.17,
    "light-controller+tub-left": 14.85,
    "brake-controller+tub-left": 12.69,
    "telemetry-hub+tub-right": 16.91,
}


@cache
def _demo(name: str) -> AsBuilt:
    return build(read_folder(DEMO / name).description)


@cache
def _results() -> dict[str, Any]:
    return results(_demo("s1"))


@pytest.mark.parametrize("pair", HEIGHTS)
def test_height_under_the_tub(pair: str) -> None:
    """The engine's distance is square to the tub's slope; straight up it is the stated height."""
    found = _results()["fit.clearances"]
    row = found.figures.addresses.index(f"fit.tub-gap@{pair}")
    straight_up = found.distance_mm[row] / abs(found.normal[row, 2])
    assert straight_up == pytest.approx(HEIGHTS[pair], abs=0.006)


@pytest.mark.parametrize(
    "address, stated_mm",
    [
        ("fit.aerial-engine@front-along+fuel-pump", 152.0),
        ("fit.aerial-controller@front-along+turbine-control-unit", 116.0),
        ("fit.hot-gap@servo-taileron-left+thrust-pipe.hot", 32.0),
        ("fit.hot-gap@servo-rudder+thrust-pipe.hot", 36.0),
    ],
)
def test_stated_distances(address: str, stated_mm: float) -> None:
    """Distances that the scenario states to the millimetre come out as stated."""
    found = _results()
    sets = [found[name].figures for name in ("fit.aerials", "fit.clearances")]
    values = [one.figure(address).value for one in sets if address in one.addresses]
    assert values == [pytest.approx(stated_mm, abs=0.5)]


def test_tightest_is_the_receiver_under_the_tub() -> None:
    """Worst pair first: the front receiver under the left console."""
    first = _results()["fit.clearances"].checks[0]
    assert first.about == ("receiver-front", "tub-left")


@pytest.mark.parametrize("name", ["s0", "s1", "s2"])
def test_a_correct_aeroplane_fits(name: str) -> None:
    """The demo raises nothing but notes."""
    assert {one.severity for one in findings(_demo(name))} <= {"note"}


def test_u_of_a_height_under_the_tub() -> None:
    """Tray 0.1, box 0.15, tub 0.2 mm, and the place's 0.3 mm by the slope of the tub, all as u."""
    found = _results()["fit.clearances"]
    row = found.figures.addresses.index("fit.tub-gap@receiver-front+tub-left")
    slope = 14.0 / 80.0
    along = slope / np.sqrt(1.0 + slope**2)
    upward = 1.0 / np.sqrt(1.0 + slope**2)
    # half of the length's error moves the front edge, all of the height's the top
    parts = (0.1 * upward, 0.15 * upward, 0.2, 0.3 * along, 0.075 * along)
    assert found.u_mm[row] == pytest.approx(np.linalg.norm(parts), abs=0.001)
