"""What a lead is tied to warms it: the hottest of its bundles, without its own heat."""

from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.power.choice.choose import Warming, warm_degc
from hardstand.engines.power.choice.laid import Laid
from hardstand.engines.power.choice.sizes import outside_mm, strands_mohm_per_m
from hardstand.engines.power.choice.tied import conductors_of, others
from tests.engines.harness.wired import assessed, texts

NET = assessed(texts()).results["harness.circuit"]
CURRENTS = {"S1": 3.0, "S2": 3.0, "F1": 1.0, "E1": 9.0}


def by_hand(*leads: str) -> tuple[float, float]:
    """Heat and squares of some leads."""
    heat = squares = 0.0
    for lead in leads:
        area = np.array(NET.leads[lead].area_mm2)
        heat += 2.0 * CURRENTS.get(lead, 0.0) ** 2 * 1e-3 * float(strands_mohm_per_m(area))
        squares += conductors_of(NET, lead) * float(outside_mm(area)) ** 2
    return heat, squares


def test_the_hottest_bundle_counts() -> None:
    """S1 lies with a signal lead, and further on with the turbine's lead: the latter warms it."""
    found = others(NET, Laid((), (("R1", "S1"), ("E1", "S1"))), CURRENTS)
    assert found["S1"] == pytest.approx(by_hand("E1"))
    assert found["R1"] == pytest.approx(by_hand("S1"))
    assert found["E1"] == pytest.approx(by_hand("S1"))
    assert "S2" not in found


def test_a_lead_beside_a_hot_one_is_warmer_than_alone() -> None:
    """Tied to the turbine's lead it is warmer, tied to one without current no warmer than alone."""
    area = np.array([NET.leads["S1"].area_mm2])
    warm = []
    for bundle in ((), ("E1", "S1"), ("R1", "S1")):
        heat, squares = others(NET, Laid((), (bundle,)), CURRENTS).get("S1", (0.0, 0.0))
        these = Warming(np.array([3.0]), np.array([3.0]), np.array([heat]), np.array([squares]), 45.0,
                        np.array([0.0]))  # fmt: skip
        warm.append(float(warm_degc(these, area)[0]))
    assert warm[1] > warm[0] + 1.0
    assert warm[2] == warm[0]


def test_a_run_of_like_leads_is_one_bundle_of_all() -> None:
    """Three leads together: each is warmed by the two others."""
    found = others(NET, Laid((), (("F1", "S1", "S2"),)), CURRENTS)
    assert found["F1"] == pytest.approx(by_hand("S1", "S2"))
