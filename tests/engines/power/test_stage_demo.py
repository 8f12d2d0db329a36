"""The power stage on the demo, against the demo's own sheet, and with its inputs stated."""

from __future__ import annotations

import time
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import Assessment, assess
from hardstand.cli.begin import demo_texts
from hardstand.description.read import read_texts
from hardstand.engines.power.defaults import AGE, COLD
from hardstand.engines.power.endurance import flights
from hardstand.engines.power.failing import failures
from hardstand.engines.power.model import FailureRow, PowerNetwork
from hardstand.engines.power.moments import moments
from hardstand.engines.power.network.cases import cases
from hardstand.engines.power.network.elements import AnyElement, Pack, Resistor
from hardstand.engines.power.network.network import Network
from hardstand.engines.power.network.solve import solve
from hardstand.engines.power.states import factors
from hardstand.stages import stages

RAIL = "distribution-unit.rail"
# The demo's sheet, open-circuit volts of one cell by charge: values from memory.
SHEET_CHARGE, SHEET_V = (0.0, 0.20, 0.30, 0.50, 0.80, 1.0), (3.3, 3.70, 3.74, 3.83, 4.00, 4.20)
# It counts one plug in each pack's lead; the network counts the plug at the pack too, 1.2 mohm.
SECOND_PLUG_MOHM = 1.2


@cache
def built() -> AsBuilt:
    """The demo after its flights."""
    return build(read_texts(demo_texts("after-flights")).description)


@cache
def assessed() -> Assessment:
    """The demo after its flights, assessed."""
    return assess(built(), stages())


def stated(power: PowerNetwork) -> Network:
    """The network with the sheet's curve, and one plug in each pack's lead."""
    changed: list[AnyElement] = []
    for one in power.network.elements:
        if isinstance(one, Pack):
            changed.append(replace(one, curve_charge=SHEET_CHARGE, curve_v=SHEET_V,
                                   resistance_factors=()))  # fmt: skip
        elif isinstance(one, Resistor) and one.id in ("H01", "H02"):
            changed.append(replace(one, resistance_mohm=one.resistance_mohm - SECOND_PLUG_MOHM))
        else:
            changed.append(one)
    return Network(tuple(changed), power.network.nodes)


@pytest.mark.parametrize(
    "packs, charge, factor, expected_v",
    [(1, 0.30, 1.5 * 1.6, 6.46), (2, 0.30, 1.5 * 1.6, 6.87), (1, 0.80, 1.0, 7.00)],
    ids=["one worst pack", "both worst packs", "one new pack"],
)
def test_the_rail_at_the_stated_peak(
    packs: int, charge: float, factor: float, expected_v: float
) -> None:
    """With the sheet's 18 A and its inputs the rail has the sheet's volts."""
    network = stated(assessed().results["power.network"])
    # The sheet gives the draw at the rail itself: the gyro's plug is nearest to it, so that a plain
    # load at the rail stands in for everything.
    at_rail = [replace(one, start=RAIL) if one.id == "gyro.bus-in" else one
               for one in network.elements]  # fmt: skip
    network = Network(tuple(at_rail), network.nodes)
    draws = {"gyro.bus-in": 18.0}
    load_a = [draws.get(one.id, 0.0) for one in network.loads]
    opened = np.zeros((1, len(network.elements)), bool)
    opened[0, network.element_at["rx-pack-right"]] = packs == 1
    count = len(network.packs)
    solved = solve(network, cases(network, load_a=load_a, charge=[charge] * count,
                                  resistance_factor=[factor] * count, opened=opened))  # fmt: skip
    # the regulators' own resistance of 1 mohm is in the network and not on the sheet: 0.018 V
    assert float(solved.volts(RAIL)[0]) == pytest.approx(expected_v, abs=0.025)


# The sheet's lengths, gauges (mohm/m) and stall currents, as corrected; the last three as printed.
@pytest.mark.parametrize(
    "end, expected_v",
    [
        ("servo-taileron-left.lead", 7.5 * 2 * 1.55 * 20.9e-3),
        ("servo-aileron-left.lead", 3.8 * 2 * 1.48 * 33.3e-3),
        ("servo-flap-right.lead", 3.6 * 2 * 1.14 * 33.3e-3),
        ("servo-rudder.lead", 0.41),
        ("nose-gear.steering", 0.13),
        ("servo-nose-doors.lead", 0.04),
    ],
)
def test_drops_in_servo_leads_are_those_of_the_sheet(end: str, expected_v: float) -> None:
    """Loop resistance by gauge times stall current, within the rounding of the sheet, 0.006 V."""
    assert assessed().figure(f"power.lead-drop@{end}").value == pytest.approx(expected_v, abs=0.006)


def test_flights_of_the_control_unit_pack_by_the_sheet() -> None:
    """454 mAh of 2600 x 0.9 mAh, with a reserve of 20 % and one flight in hand: three flights."""
    assert flights(0.9 * 2600.0, 454.0, 454.0) == 3


def test_the_charge_of_a_flight_is_that_of_its_phases() -> None:
    """The turbine's unit by hand: 9 A for 35 s, 2.3 A while it runs, 1.2 A for 120 s of cooling."""
    running_s = 90 + 8 + 2 * 6 + 382 + 45 + 15 + 60
    by_hand = (9.0 * 35 + 2.3 * running_s + 1.2 * 120) / 3.6
    figure = assessed().figure("power.flight-charge@control-unit-pack")
    assert figure.value == pytest.approx(by_hand, rel=1e-9)


def test_packs_of_one_rail_share_the_charge() -> None:
    """Two like packs take half each of what one alone would give."""
    uses = {one.pack: one for one in assessed().results["power.endurance"].packs}
    left = uses["rx-pack-left"]
    assert left.partners == ("rx-pack-right",)
    assert left.shared_mah == pytest.approx(0.5 * left.alone_mah, rel=1e-6)


def test_the_stage_is_quick() -> None:
    """Moments and all single failures take well under a second of processor time."""
    results = assessed().results
    begun = time.process_time()
    moments(built(), results)
    failures(built(), results)
    assert time.process_time() - begun < 0.9


def test_uncertainty_of_the_rail_agrees_with_trials() -> None:
    """Age and cold drawn at random spread the rail as their slopes promise, within 20 %."""
    results = assessed().results
    power, solved = results["power.network"], results["power.moments"]
    slope = dict(solved.figures.figure(f"power.rail@{RAIL}").parents)
    random = np.random.default_rng(4)
    trials = 300
    age = AGE.value + AGE.u * random.standard_normal(trials)
    cold = COLD.value + COLD.u * random.standard_normal(trials)
    worn = np.array([factors(power, a, t) for a, t in zip(age, cold, strict=True)])
    opened = np.zeros((1, len(power.network.elements)), bool)
    opened[0, power.network.element_at["rx-pack-right"]] = True
    found = solve(power.network, cases(
        power.network, load_a=solved.peak_a, charge=[0.3] * len(power.packs),
        resistance_factor=worn, opened=opened)).volts(RAIL)  # fmt: skip
    promised = np.hypot(slope[AGE.address] * AGE.u, slope[COLD.address] * COLD.u)
    assert float(found.std()) == pytest.approx(float(promised), rel=0.2)


def test_every_moment_and_every_failure_is_a_solution() -> None:
    """No case is left where the search ended."""
    results = assessed().results
    assert results["power.moments"].settled.all()
    assert all(one.settled for one in results["power.failures"].rows)


def row(element: str, kind: str) -> FailureRow:
    """What one failure does."""
    rows: tuple[FailureRow, ...] = assessed().results["power.failures"].rows
    return next(one for one in rows if (one.element, one.kind) == (element, kind))


def test_what_failures_take() -> None:
    """A pack gone changes no function, the rudder's lead takes yaw, a taileron's lessens pitch."""
    assert row("rx-pack-left", "open").silent
    assert row("H17", "open").lost == ("yaw",)
    one_taileron = row("H15", "open")
    assert one_taileron.lost == ()
    assert set(one_taileron.less) == {"pitch", "roll"}
    assert set(row("wing-plug-left", "open").less) == {"roll", "flaps"}
    assert "turbine-control-unit" in row("control-unit-pack", "open").dead


def test_a_leg_motor_that_is_dead_leaves_the_steering_of_its_unit() -> None:
    """The steering servo is fed from elsewhere than the leg that it sits in."""
    assert "steering" not in row("H23", "open").lost
    assert "steering" in row("H18", "open").lost
