"""The demo aeroplane's files say what its scenario declares.

Every expected number here is the scenario's own statement (an invented aeroplane), typed from it: no
outside check. Sums are made here by hand, so that they also hold without any engine.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

import hardstand
from hardstand.description.catalogue import resolved_parts
from hardstand.description.model import Description
from hardstand.description.parts import Part
from hardstand.description.read import read_folder

DEMO = Path(hardstand.__file__).parent / "data" / "demo"
CG_MARK_MM = 1045.0
Floats = NDArray[np.float64]
Weights = list[tuple[float, Floats]]

# State: mass g; CG aft of the mark, y and z, mm.
STATES = {
    "dry": (13229, 252.1, -0.41, -7.4),
    "ref": (13341, 249.7, -0.41, -7.3),
    "ref-gear-up": (13341, 254.0, -0.41, 7.2),
    "take-off": (15988, 252.2, -0.34, -1.9),
    "cruise-100": (15988, 255.8, -0.34, 10.1),
    "cruise-50": (14665, 255.0, -0.37, 8.8),
    "cruise-20": (13871, 254.4, -0.39, 7.9),
    "landing": (13871, 250.2, -0.39, -6.0),
}
# Box on the main tray: x from, to; y from, to; top z; least clearance to the tub, mm.
UNDER_THE_TUB = {
    "distribution-unit": (541, 655, -31.0, 31.0, 44, 4.95),
    "switch-panel": (577, 639, 61.0, 83.0, 36, 4.71),
    "receiver-front": (716, 768, -76.0, -48.0, 33, 3.80),
    "gear-controller": (741, 799, 28.0, 68.0, 36, 5.17),
    "light-controller": (484, 534, -79.5, -44.5, 34, 14.85),
    "brake-controller": (772.5, 817.5, -63.0, -33.0, 34, 12.69),
    "telemetry-hub": (485, 533, 47.5, 72.5, 32, 16.91),
}
# Options of the first layout: mass g and CG in the reference state.
WAYS_OUT = {
    (): (13563, 232.0),
    ("packs-aft",): (13563, 234.7),
    ("lighter-packs",): (13371, 245.6),
    ("lighter-packs", "packs-aft"): (13371, 247.4),
    ("lighter-packs", "packs-aft", "lead-cut"): (13341, 249.7),
    ("tail-ballast",): (13820, 249.9),
}


@cache
def description(moment: str, options: tuple[str, ...] = ()) -> Description:
    """One moment of the demo as read, with options laid over it."""
    return read_folder(DEMO / moment, options).description


@cache
def boxes(moment: str, options: tuple[str, ...] = ()) -> dict[str, tuple[Floats, Floats, Part]]:
    """Lowest corner, highest corner and part of every item; none of the demo's is turned."""
    whole = description(moment, options)
    parts, tops = resolved_parts(whole), {tray.id: tray.top_z_mm for tray in whole.tray}
    found = {}
    for item in whole.item:
        part = parts[item.part].part
        assert part.size_mm is not None
        half = np.array(part.size_mm) / 2.0
        height = () if item.on is None else (tops[item.on] + item.raise_mm + half[2],)
        middle = np.array([*item.at_mm, *height])
        found[item.id] = (middle - half, middle + half, part)
    return found


def items(moment: str, options: tuple[str, ...] = (), of: Iterable[str] | None = None) -> Weights:
    """Mass and mass centre of items, all or some."""
    every = boxes(moment, options)
    chosen = every if of is None else {one: every[one] for one in of}
    return [
        (part.mass_g or 0.0, (low + high) / 2.0 + np.array(part.cg_offset_mm))
        for low, high, part in chosen.values()
    ]


def loaded(moment: str, state_id: str, options: tuple[str, ...] = ()) -> tuple[float, Floats]:
    """Mass and CG in a state, the fuel of each tank taken at the tank's middle."""
    whole = description(moment, options)
    state = next(one for one in whole.state if one.id == state_id)
    weights: Weights = [(one.mass_g, np.array(one.at_mm)) for one in whole.mass]
    weights += items(moment, options)
    if state.gear == "up":
        for leg in whole.leg:
            weights += [(leg.moving_g, np.array(leg.up_mm)), (-leg.moving_g, np.array(leg.down_mm))]
    assert whole.fuel is not None
    for tank in whole.tank:
        share = (state.header_pct if tank.header else state.fuel_pct) / 100.0
        low, high, _ = boxes(moment, options)[tank.item]
        weights.append(
            (share * tank.capacity_ml * whole.fuel.density_kg_m3 / 1000.0, (low + high) / 2.0)
        )
    mass = sum(one for one, _ in weights)
    return mass, sum((one * at for one, at in weights), np.zeros(3)) / mass


@pytest.mark.parametrize("moment", ["s0", "s1", "s2"])
def test_every_moment_reads(moment: str) -> None:
    """Each of the three folders is read without a problem and holds the whole aeroplane."""
    whole = description(moment)
    assert (len(whole.item), len(whole.tank), len(whole.leg), len(whole.antenna)) == (36, 3, 3, 4)
    assert {one.id for one in whole.state} == set(STATES)
    assert len(whole.section) >= 8


def test_groups_of_masses_add_up() -> None:
    """Airframe, sundry, servos and equipment add up to the declared sub-totals and dry mass."""
    whole = description("s1")
    servos = [one.id for one in whole.item if one.id.startswith("servo-")]
    equipment = [one.id for one in whole.item if not one.id.startswith("servo-")]
    airframe = sum(one.mass_g for one in whole.mass if not one.zone)
    sundry = sum(one.mass_g for one in whole.mass if one.zone)
    sums = [sum(mass for mass, _ in items("s1", of=ids)) for ids in (equipment, servos)]
    assert (*sums, airframe, sundry) == (5371, 582, 6188, 1088)
    assert sum((*sums, airframe, sundry)) == 13229


@pytest.mark.parametrize("state", STATES)
def test_mass_and_cg_of_every_state(state: str) -> None:
    """Mass and CG of each state are those declared, to the digits printed."""
    mass, x, y, z = STATES[state]
    found, cg = loaded("s1", state)
    assert found == pytest.approx(mass, abs=0.5)
    assert cg[0] - CG_MARK_MM == pytest.approx(x, abs=0.05)
    assert cg[1:] == pytest.approx([y, z], abs=0.05)


@pytest.mark.parametrize("options", WAYS_OUT)
def test_first_layout_and_its_ways_out(options: tuple[str, ...]) -> None:
    """The first layout is nose-heavy, and each option brings the declared mass and CG."""
    mass, x = WAYS_OUT[options]
    found, cg = loaded("s0", "ref", options)
    assert found == pytest.approx(mass, abs=0.5)
    assert cg[0] - CG_MARK_MM == pytest.approx(x, abs=0.05)


def test_two_hubs_replace_the_distribution() -> None:
    """The option takes the distribution out, puts in two hubs and a tie, and leaves no lead behind."""
    whole = description("s1", ("two-hubs",))
    ids = {one.id for one in whole.item}
    assert {"hub-left", "hub-right", "rail-tie"} <= ids
    assert "distribution-unit" not in ids
    ends = {end.partition(".")[0] for one in whole.lead for end in (one.from_, one.to)}
    assert "distribution-unit" not in ends


@pytest.mark.parametrize("item", UNDER_THE_TUB)
def test_clearance_under_the_tub(item: str) -> None:
    """Each box on the main tray stands where declared, with the declared least room to the tub."""
    low_x, high_x, low_y, high_y, top, room = UNDER_THE_TUB[item]
    low, high, _ = boxes("s1")[item]
    assert (low[0], high[0], low[1], high[1], high[2]) == (low_x, high_x, low_y, high_y, top)
    least = min(tub_height(low, high)) - high[2]
    assert least == pytest.approx(room, abs=0.006)


def tub_height(low: Floats, high: Floats) -> list[float]:
    """Lowest tub surface over a box in each band that it reaches into."""
    found = []
    for one in description("s1").keep_out:
        if one.shape != "underside" or one.y_mm is None or one.profile_mm is None:
            continue
        if low[1] < one.y_mm[1] and high[1] > one.y_mm[0]:
            x, z = np.array(one.profile_mm).T
            inner = x[(x > low[0]) & (x < high[0])]
            found.append(float(np.interp([low[0], *inner, high[0]], x, z).min()))
    return found


@pytest.mark.parametrize(
    "servo, gap_mm",
    [("servo-taileron-left", 32.0), ("servo-taileron-right", 32.0), ("servo-rudder", 36.0)],
)
def test_tail_servos_clear_the_jacket(servo: str, gap_mm: float) -> None:
    """The tail servos keep the declared gaps to the jacketed thrust pipe."""
    low, high, _ = boxes("s1")[servo]
    pipe_low, pipe_high, _ = boxes("s1")["thrust-pipe"]
    axis, radius = (pipe_low + pipe_high)[1:] / 2.0, (pipe_high - pipe_low)[1] / 2.0
    nearest = np.clip(axis, low[1:], high[1:])
    assert np.linalg.norm(nearest - axis) - radius == pytest.approx(gap_mm)


def test_no_two_boxes_overlap() -> None:
    """No two items of the aeroplane as built share room, but the lamp ring round the thrust pipe."""
    every = boxes("s1")
    names = sorted(every)
    touching = {
        (a, b)
        for n, a in enumerate(names)
        for b in names[n + 1 :]
        if np.all(every[a][0] < every[b][1]) and np.all(every[b][0] < every[a][1])
    }
    assert touching == {("tail-lamp-ring", "thrust-pipe")}
    assert every["tail-lamp-ring"][2].inside_mm == 84.0
    assert every["thrust-pipe"][2].size_mm == (500, 80, 80)


@pytest.mark.parametrize("moment", ["s0", "s1"])
def test_everything_between_the_walls_is_inside_the_shell(moment: str) -> None:
    """Every box that is not in a wing lies inside the fuselage's sections, by at least 5 mm."""
    sections = sorted(description(moment).section, key=lambda one: one.x_mm)
    stations = [one.x_mm for one in sections]
    for name, (low, high, part) in boxes(moment).items():
        if "aileron" in name.replace("taileron", "") or "flap" in name or "main-gear" in name:
            continue
        for x in (low[0], high[0], *(one for one in stations if low[0] < one < high[0])):
            side, top, bottom, corner = (
                np.interp(x, stations, [getattr(one, field) for one in sections])
                for field in ("half_width_mm", "top_mm", "bottom_mm", "corner_mm")
            )
            for y in (low[1], high[1]):
                for z in (low[2], high[2]):
                    out = np.array([abs(y) - side + corner, max(z - top, bottom - z) + corner])
                    reach = np.linalg.norm(np.maximum(out, 0.0)) + min(max(out), 0.0) - corner
                    box_like = part.shape == "box" or name == "air-trap"
                    assert not box_like or reach <= -5.0 + 1e-9, name


def test_leads_are_all_there() -> None:
    """Leads H01 to H35 and K1 to K9 are listed; in the first layout no lamp lead is known."""
    for moment in ("s0", "s1", "s2"):
        numbers = {
            match[0] for one in description(moment).lead if (match := re.match(r"[HK]\d+", one.id))
        }
        assert numbers == {f"H{n:02}" for n in range(1, 36)} | {f"K{n}" for n in range(1, 10)}
    lamps = [one for one in description("s0").lead if one.id.startswith("K")]
    assert all(one.to == "unknown" and len(one.may_be) == 9 for one in lamps)
    assert {one.to for one in description("s1").lead if one.id.startswith("K")} == set(
        lamps[0].may_be
    )


@pytest.mark.parametrize("options", [(), ("two-hubs",)])
def test_every_lead_ends_at_a_port_that_exists(options: tuple[str, ...]) -> None:
    """A lead's end names an item and one of its ports, or something that has no item yet."""
    whole = description("s1", options)
    parts = resolved_parts(whole)
    ports = {
        one.id: {name for port in parts[one.part].ports for name in port.names()}
        for one in whole.item
    }
    for lead in whole.lead:
        for end in (lead.from_, lead.to):
            item, _, port = end.partition(".")
            assert port in ports[item] if item in ports else end.startswith(("lamp-", "wing-plug-"))


def test_planform_areas() -> None:
    """The panels have the declared areas: wing 0.760 m2, one tail panel 0.08663, fin 0.062."""
    area_m2 = {}
    for one in description("s1").panel:
        span = np.linalg.norm(np.subtract(one.tip_mm, one.root_mm)[1:])
        area_m2[one.id] = (one.root_chord_mm + one.tip_chord_mm) / 2.0 * span / 1e6
    assert area_m2 == pytest.approx({"wing": 0.380, "tail": 0.086625, "fin": 0.062})


def test_weigh_in_on_three_scales() -> None:
    """The readings add up to 13.360 kg and put the CG at 249.5 mm and 0.34 mm to the left."""
    whole = description("s1")
    contact = {leg.id: np.array(leg.contact_mm) for leg in whole.leg}
    total = sum(one.reading_g for one in whole.reading)
    cg = (
        sum((one.reading_g * contact[str(one.under)] for one in whole.reading), np.zeros(3)) / total
    )
    assert total == 13360
    assert cg[0] - CG_MARK_MM == pytest.approx(249.5, abs=0.05)
    assert cg[1] == pytest.approx(-0.34, abs=0.005)


def test_the_pipe_has_crept_after_three_flights() -> None:
    """After three flights the gap in front of the thrust pipe is 21.5 mm instead of 22 mm."""
    turbine, pipe = boxes("s2")["turbine"], boxes("s2")["thrust-pipe"]
    measured = description("s2").measurement[0]
    assert measured.declared == pytest.approx(tuple((pipe[0] + pipe[1]) / 2.0))
    crept = np.array(measured.value) - np.array(measured.declared)
    assert pipe[0][0] - turbine[1][0] == pytest.approx(22.0)
    assert pipe[0][0] + crept[0] - turbine[1][0] == pytest.approx(21.5)
