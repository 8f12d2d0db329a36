from __future__ import annotations

import pytest

from hardstand.engines.balance.model import Stability
from tests.aeroplanes import SMALL, assessed, of_code

CANARD = SMALL.replace('surface = "tail"', 'surface = "canard"').replace(
    "root_mm = [1700, 60, 60]", "root_mm = [200, 60, 60]").replace("tip_mm = [1800", "tip_mm = [260")  # fmt: skip


def stability(text: str = SMALL) -> Stability:
    """Planform and neutral point of an aeroplane."""
    found: Stability = assessed(text).results["balance.stability"]
    return found


def with_table(words: str) -> str:
    """The small aeroplane with a [stability] table."""
    return f"{SMALL}[stability]\n{words}\n"


def test_a_tail_moves_the_neutral_point_aft_and_a_canard_forward() -> None:
    """Behind the wing's own by the tail's share, ahead of it by the canard's."""
    for text, sign in ((SMALL, 1.0), (CANARD, -1.0)):
        point = stability(text).point
        assert point is not None
        assert point.tail_pct * sign > 5.0


def test_a_canard_is_met_by_the_free_stream() -> None:
    """Its efficiency is taken as 1, the tail's as 0.95, each named; a stated one is used."""
    for text, value in ((SMALL, 0.95), (CANARD, 1.0), (with_table("tail_efficiency = 0.8"), 0.8)):
        efficiency = stability(text).efficiency
        assert efficiency is not None
        assert efficiency.value == value
        said = [one.text for one in of_code(assessed(text), "balance.assumption")]
        assert any(f"{value:g} of the free stream" in one for one in said) == (value != 0.8)


def test_a_tailless_aeroplane_is_told_from_a_forgotten_tail() -> None:
    """Called so, it has the neutral point of wing and body, and no tail is asked for."""
    no_panels = SMALL.replace('surface = "tail"', 'surface = "fin"')
    assert ("tail",) in [one.about for one in of_code(assessed(no_panels), "balance.missing")]
    called = f"{no_panels}[stability]\ntailless = true\n"
    point = stability(called).point
    assert point is not None
    assert point.tail_pct == pytest.approx(0.0, abs=1e-9)
    assert point.value_pct == pytest.approx(point.wing_pct + point.body_pct)
    found = assessed(called)
    assert ("tail",) not in [one.about for one in of_code(found, "balance.missing")]
    assert not any("pressure" in one.text for one in of_code(found, "balance.assumption"))
    assert "balance.static-margin@full" in found.addresses()


def test_speed_changes_the_point_and_beyond_the_rule_is_said() -> None:
    """Faster air moves it a little; beyond Mach 0.6 it stays there and that is named."""
    slow, fast, capped, beyond = (
        stability(text) for text in (SMALL, with_table("speed_m_s = 100"), with_table("speed_m_s = 204.18"),
                                     with_table("speed_m_s = 300"))
    )  # fmt: skip
    points = [one.point.value_pct if one.point else 0.0 for one in (slow, fast, capped, beyond)]
    assert points[0] != points[1] != points[2]
    assert abs(points[1] - points[0]) < 1.0
    assert points[3] == pytest.approx(points[2])
    assert any("300 m/s" in one for one in beyond.assumptions)
    assert not any("m/s" in one for one in capped.assumptions)


def test_the_point_moves_with_the_wing() -> None:
    """Its station follows the wing's chords and stations; its place in the MAC does not."""
    found = stability().figures
    station, share = (
        dict(found.figure(f"balance.neutral-point{one}@wing").parents) for one in ("", "-mac")
    )
    assert station["panel.wing.root_mm.x"] + station["panel.wing.tip_mm.x"] == pytest.approx(1.0)
    assert set(share) == {"stability.tail_efficiency"}


def test_panels_no_aeroplane_has_are_not_believed() -> None:
    """A tail ten metres aft gives no neutral point, and why is said."""
    text = SMALL.replace("[1700, 60, 60]", "[17000, 60, 60]").replace(
        "[1800, 350, 60]", "[18000, 350, 60]"
    )
    found = stability(text)
    assert found.point is None
    assert "slipped digit" in found.problem
    assert ("tail",) in {one.about for one in of_code(assessed(text), "balance.missing")}
