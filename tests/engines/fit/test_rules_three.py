"""Each rule on three aeroplanes: failing by the smallest margin, undecided, and clear."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from hardstand.asbuilt import AsBuilt
from hardstand.engines.fit import STAGE
from hardstand.figures import Input
from hardstand.standards.limits import BY_ID
from hardstand.standards.wire import outside_diameter_mm
from tests.engines.fit.small_aeroplane import AROUND, built, figure, findings, item, part, results

THOUSANDTH = 0.001
BOX = part("box")
PLUGS = '\n[[port]]\npart = "{}"\nid = "p"\nface = "front"\nkind = "power"\ncurrent_a = 10\n'


def keep_out(kind: str, x_mm: float) -> str:
    """A box of 20 mm whose middle is at x."""
    return (
        f'[[keep_out]]\nid = "k"\nkind = "{kind}"\nshape = "box"\nat_mm = [{x_mm}, 0, 0]\n'
        "size_mm = [20, 20, 20]\n"
    )


def antenna(id_: str, receiver: str, tip: str, direction: str = "[0, 0, 1]") -> str:
    """An aerial with a tip known to 1 mm."""
    return (
        f'[[antenna]]\nid = "{id_}"\nitem = "{receiver}"\ntip_mm = {tip}\ndirection = {direction}\n'
        "tip_tol_mm = 1\n"
    )


def hatch(low_x: float, high_x: float) -> str:
    """A hatch that opens upward, 100 mm wide."""
    outline = [[low_x, -50], [high_x, -50], [high_x, 50], [low_x, 50]]
    return f'[[hatch]]\nid = "lid"\noutline_mm = {outline}\n'


def tray(more: str = "") -> str:
    """A tray of 200 by 100 mm about the origin, its top at 0."""
    return (
        '[[tray]]\nid = "tray"\noutline_mm = [[-100, -50], [100, -50], [100, 50], [-100, 50]]\n'
        f"top_z_mm = 0\n{more}\n"
    )


def _needed() -> float:
    """The opening that four leads of three wires of gauge 20 fill to 40 %."""
    return float((12.0 * outside_diameter_mm(20) ** 2 / 0.4) ** 0.5)


@dataclass(frozen=True)
class Case:
    """A rule's figure, and the aeroplane in which that figure has a given value."""

    code: str
    address: str
    body: Callable[[float], str]
    parts: str = BOX
    around: str = AROUND
    limit: str = ""


def pump(x_mm: float, kind: str = "pump") -> str:
    """The other thing, at x."""
    return item("b", kind, f"[{x_mm}, 0, 0]")


RECEIVERS = part("box") + part("rx", "receiver") + part("pump", "pump") + part("pack", "pack")
POWER = part("feeder") + PLUGS.format("feeder")
CASES = (
    Case(
        "fit.box-gap",
        "fit.gap@a+b",
        lambda v: item("a", "box", "[0, 0, 0]") + item("b", "box", f"[{20 + v}, 0, 0]"),
    ),
    Case(
        "fit.plug-room",
        "fit.plug-room@b+a.front",
        lambda v: item("a", "feeder", "[0, 0, 0]") + item("b", "box", f"[{-60 - v}, 0, 0]"),
        BOX + POWER,
    ),
    Case(
        "fit.structure-gap",
        "fit.structure-gap@a+k",
        lambda v: item("a", "box", "[0, 0, 0]") + keep_out("structure", 20 + v),
    ),
    Case(
        "fit.tub-gap",
        "fit.tub-gap@a+k",
        lambda v: (
            item("a", "box", "[0, 0, 0]")
            + '[[keep_out]]\nid = "k"\nkind = "tub"\nshape = "underside"\n'
            + f"profile_mm = [[-50, {10 + v}], [50, {10 + v}]]\ny_mm = [-40, 40]\n"
        ),
        limit="fit.structure-gap",
    ),
    Case(
        "fit.bay-gap",
        "fit.bay-gap@a+body",
        lambda v: item("a", "box", f"[0, {1990 - v}, 0]"),
        limit="fit.structure-gap",
    ),
    Case(
        "fit.moving-gap",
        "fit.moving-gap@a+k",
        lambda v: item("a", "box", "[0, 0, 0]") + keep_out("moving", 20 + v),
    ),
    Case(
        "fit.hot-gap",
        "fit.hot-gap@b+a.hot",
        lambda v: item("a", "case", "[0, 0, 0]") + item("b", "box", f"[{20 + v}, 0, 0]"),
        BOX + part("case", "turbine", more='hot_degc = 400\nhot_from_mm = 12\nmaterial = "metal"'),
    ),
    Case(
        "fit.fuel-gap",
        "fit.fuel-gap@a+b",
        lambda v: item("a", "tank", "[0, 0, 0]") + item("b", "regulator", f"[{20 + v}, 0, 0]"),
        part("tank", "tank") + part("regulator", "regulator"),
    ),
    Case(
        "fit.tray-edge",
        "fit.tray-edge@a",
        lambda v: tray() + item("a", "box", f"[{90 - v}, 0]", 'on = "tray"'),
    ),
    Case(
        "fit.hole-gap",
        "fit.hole-gap@a+hole",
        lambda v: (
            tray()
            + item("a", "box", f"[{-15 - v}, 0]", 'on = "tray"')
            + '[[hole]]\nid = "hole"\ntray = "tray"\nat_mm = [0, 0]\ndiameter_mm = 10\n'
        ),
    ),
    Case(
        "fit.height",
        "fit.height@a",
        lambda v: tray(f"height_mm = {20 + v}") + item("a", "box", "[0, 0]", 'on = "tray"'),
    ),
    Case(
        "fit.gyro-alignment",
        "fit.gyro-alignment@a",
        lambda v: item("a", "gyro", "[0, 0, 0]", f"misalignment_deg = [0.1, {v}, 0]"),
        part("gyro", "gyro"),
    ),
    Case(
        "fit.gyro-centreline",
        "fit.gyro-centreline@a",
        lambda v: item("a", "gyro", f"[0, {-v}, 0]", "misalignment_deg = [0, 0, 0]"),
        part("gyro", "gyro"),
    ),
    Case(
        "fit.gyro-cg",
        "fit.gyro-cg@a",
        lambda v: item("a", "gyro", f"[{v}, 0, 0]", "misalignment_deg = [0, 0, 0]"),
        part("gyro", "gyro", more="has_accelerometer = true"),
    ),
    Case(
        "fit.gyro-engine",
        "fit.gyro-engine@a+b",
        lambda v: item("a", "gyro", "[0, 0, 0]", "misalignment_deg = [0, 0, 0]") + pump(20 + v),
        RECEIVERS + part("gyro", "gyro"),
    ),
    Case(
        "fit.aerial-apart",
        "fit.aerial-apart@one+two",
        lambda v: (
            item("a", "rx", "[0, 0, 500]")
            + item("b", "rx", "[500, 0, 500]")
            + antenna("one", "a", "[0, 0, 0]")
            + antenna("two", "b", f"[{v}, 0, 0]")
        ),
        RECEIVERS,
    ),
    Case(
        "fit.aerial-angle",
        "fit.aerial-angle@one+two",
        lambda v: (
            item("a", "rx", "[0, 0, 500]")
            + antenna("one", "a", "[0, 0, 0]", "[1, 0, 0]")
            + antenna(
                "two", "a", "[0, 100, 0]", f"[{np.cos(np.radians(v))}, {np.sin(np.radians(v))}, 0]"
            )
        ),
        RECEIVERS,
    ),
    Case(
        "fit.aerial-engine",
        "fit.aerial-engine@one+b",
        lambda v: item("a", "rx", "[0, 0, 500]") + antenna("one", "a", "[0, 0, 0]") + pump(10 + v),
        RECEIVERS,
    ),
    Case(
        "fit.aerial-controller",
        "fit.aerial-controller@one+b",
        lambda v: (
            item("a", "rx", "[0, 0, 500]") + antenna("one", "a", "[0, 0, 0]") + pump(10 + v, "unit")
        ),
        RECEIVERS + part("unit", "turbine-controller"),
    ),
    Case(
        "fit.aerial-carbon",
        "fit.aerial-carbon@one+k",
        lambda v: (
            item("a", "rx", "[0, 0, 500]")
            + antenna("one", "a", "[0, 0, 0]")
            + keep_out("carbon", 10 + v)
        ),
        RECEIVERS,
    ),
    Case(
        "fit.aerial-lead",
        "fit.aerial-lead@one+wire",
        lambda v: (
            item("a", "rx", "[0, 0, 500]")
            + antenna("one", "a", "[0, 0, 0]")
            + item("b", "feeder", f"[{v + 10}, 300, 0]")
            + item("c", "feeder", f"[{v + 10}, -300, 0]")
            + '[[lead]]\nid = "wire"\nfrom = "b.p"\nto = "c.p"\n'
        ),
        RECEIVERS + POWER,
    ),
    Case(
        "fit.pack-slides-out",
        "fit.pack-slides-out@a",
        lambda v: (
            hatch(-50, 50)
            + item("a", "pack", "[0, 0, 0]", 'through = "lid"')
            + item("b", "box", f"[{20 + v}, 0, 60]")
        ),
        RECEIVERS,
    ),
    Case(
        "fit.pack-opening",
        "fit.pack-opening@a",
        lambda v: hatch(-10 - v, 50) + item("a", "pack", "[0, 0, 0]", 'through = "lid"'),
        RECEIVERS,
    ),
    Case(
        "fit.reach",
        "fit.reach@a",
        lambda v: hatch(-v, 50) + item("a", "knob", "[0, 0, 0]"),
        part("knob", "switch", more="needs_reach = true"),
    ),
    Case(
        "fit.view",
        "fit.view-opening@a",
        lambda v: hatch(-10 - v, 50) + item("a", "lamp", "[0, 0, 0]"),
        part("lamp", "display", more='needs_view = true\nview_face = "top"'),
    ),
    Case(
        "fit.pass-through",
        "fit.pass-through@way",
        lambda v: (
            tray()
            + f'[[hole]]\nid = "way"\ntray = "tray"\nat_mm = [0, 0]\ndiameter_mm = {_needed() + v}\n'
            + item("a", "box", "[500, 0, 0]")
            + "".join(
                f'[[lead]]\nid = "L{k}"\nfrom = "near-{k}"\nto = "far-{k}"\nvia = ["way"]\nawg = 20\n'
                for k in range(4)
            )
        ),
        BOX,
    ),
)
BY_CODE = {case.code: case for case in CASES}
BARE = item("a", "box", "[0, 0, 0]")
# Rules without a figure: an aeroplane on which they speak, and one on which they are silent.
PLAIN: dict[str, tuple[AsBuilt, AsBuilt]] = {
    "fit.aerial-missing": (
        built(item("a", "rx", "[0, 0, 0]"), RECEIVERS),
        built(item("a", "rx", "[0, 0, 0]") + antenna("one", "a", "[0, 90, 0]"), RECEIVERS),
    ),
    "fit.assumed-size": (
        built(
            item("a", "receiver-6-channel", "[0, 0, 0]")
            + item("b", "receiver-6-channel", "[0, 35, 0]"),
            "",
        ),
        built(
            item("a", "receiver-6-channel", "[0, 0, 0]")
            + item("b", "receiver-6-channel", "[0, 35, 0]", "size_mm = [42, 28, 12]"),
            "",
        ),
    ),
    "fit.outside-bays": (
        built(item("a", "box", "[0, 2500, 0]"), BOX),
        built(BARE, BOX),
    ),
    "fit.assumption": (
        built(BY_CODE["fit.aerial-lead"].body(300.0), RECEIVERS + POWER),
        built(BARE, BOX),
    ),
    "fit.missing": (built(BARE, BOX, around=""), built(BARE, BOX)),
}


def head() -> Any:
    """A CG at the origin, known to 1 mm along each axis."""
    inputs = tuple(Input(f"mass.m.at_mm.{axis}", 0.0, "mm", 1.0) for axis in "xyz")
    slope = np.zeros((1, 4, 3))
    slope[0, 1:] = np.eye(3)
    return SimpleNamespace(
        state_ids=("ref",),
        mass_g=np.array([15_000.0]),
        cg_mm=np.zeros((1, 3)),
        inputs=inputs,
        slope=slope,
        row=lambda _: 0,
    )


def severities(aeroplane: AsBuilt, code: str) -> list[str]:
    """The severities with which a rule speaks."""
    return [one.severity for one in findings(aeroplane, head()) if one.code == code]


def test_no_rule_is_left_out() -> None:
    """Every rule of the engine has its aeroplanes here."""
    assert set(BY_CODE) | set(PLAIN) == {rule.code for rule in STAGE.rules}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.code)
def test_three_aeroplanes(case: Case) -> None:
    """Outside by U and a thousandth fails, at the limit only measuring decides, inside passes."""
    limit = BY_ID[case.limit or case.code]
    bound, inward = (limit.low, 1.0) if limit.low is not None else (limit.high, -1.0)
    assert bound is not None

    def at(value: float) -> AsBuilt:
        return built(case.body(value), case.parts, case.around)

    one = figure(results(at(bound), head()), case.address)
    assert one.value == pytest.approx(bound, abs=1e-6)
    assert one.u > 0.0
    expanded = 0.0 if limit.target else one.expanded
    beyond = expanded + THOUSANDTH
    fails = severities(at(bound - inward * beyond), case.code)
    assert len(fails) == 1
    assert fails[0] in ("no-go", "caution", "note")
    between = severities(at(bound), case.code)
    assert between == ([] if limit.target else ["measure"])
    assert severities(at(bound + inward * beyond), case.code) == []


@pytest.mark.parametrize("code", PLAIN)
def test_two_aeroplanes(code: str) -> None:
    """A rule without a figure speaks where it should and is silent where it should."""
    speaks, silent = PLAIN[code]
    assert severities(speaks, code)
    assert not severities(silent, code)
