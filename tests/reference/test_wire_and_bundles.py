"""Wire gauges and bundles against published values."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path

import pytest

from hardstand.engines.fit.pass_through import bundle_diameter_mm, needed_diameter_mm
from hardstand.standards.wire import conductor_diameter_mm

DATA = Path(__file__).parent / "data" / "copper_wire.toml"
CASES = {case["id"]: case for case in tomllib.loads(DATA.read_text(encoding="utf-8"))["case"]}


def test_diameters_of_gauges() -> None:
    """Nine gauges. Source: ASTM B258, by its closed form. Grade: seen."""
    case = CASES["cw-01"]
    pairs = zip(case["inputs"]["gauge"], case["expected"]["diameter_mm"], strict=True)
    for gauge, diameter in pairs:
        assert conductor_diameter_mm(gauge) == pytest.approx(diameter, rel=case["tolerance"]["rel"])


# Diameter of the smallest circle around n circles of diameter 1. Graham, Lubachevsky, Nurmela,
# Östergård: Dense packings of congruent circles in a circle, Discrete Mathematics 181 (1998),
# table 1. Grade: memory; those of 2, 3, 4, 5, 7 and 19 are closed forms.
DENSEST = {2: 2.0, 3: 1 + 2 / math.sqrt(3), 4: 1 + math.sqrt(2), 5: 1 + math.sqrt(2 * (1 + 1 / math.sqrt(5))),
           6: 3.0, 7: 3.0, 8: 3.304, 9: 3.613, 10: 3.813, 11: 3.923, 12: 4.029, 13: 4.236,
           19: 1 + math.sqrt(2) + math.sqrt(6)}  # fmt: skip


@pytest.mark.parametrize("count", DENSEST)
def test_no_bundle_is_thinner_than_its_wires_can_lie(count: int) -> None:
    """Hand-tied wires are as thick as the densest packing, and at most a fifth thicker."""
    assert DENSEST[count] <= bundle_diameter_mm([1.0] * count) <= 1.2 * DENSEST[count]


def test_a_round_opening_filled_to_forty_per_cent() -> None:
    """Over two wires may fill 40 %: nine of 2 mm, 28.27 mm2, need 70.7 mm2, 9.49 mm across.

    Source: NFPA 70 (National Electrical Code), chapter 9, table 1; the sum by hand. Grade: memory.
    """
    assert needed_diameter_mm([2.0] * 9, 40.0) == pytest.approx(9.487, abs=0.001)
