"""The catalogue's rows: readable, named in plain words, physically plausible and consistent."""

from __future__ import annotations

import math
import re
import tomllib
from itertools import pairwise
from pathlib import Path

import pytest

from hardstand.description.catalogue import Catalogue, Resolved
from hardstand.description.generic_parts import (
    family_texts,
    generic,
    generic_ids,
    generic_part,
    generic_rows,
)
from hardstand.description.parts import Part, PartKind

WORDS = frozenset((Path(__file__).parent / "catalogue_words.txt").read_text("utf-8").split())
ALL: tuple[Resolved, ...] = tuple(Catalogue().resolve(one) for one in sorted(generic_ids()))
HOLLOW: tuple[PartKind, ...] = ("tank", "header-tank", "air-tank")

# Nominal cell voltage; specific energy of whole packs with leads, Wh/kg. Lithium-ion cells reach
# 100 to 265 Wh/kg, nickel metal hydride 60 to 120 (encyclopedic tables). All values from memory;
# packs carry sleeve and leads, high-current cells are at the lower end.
CHEMISTRY = {
    "li-po": (3.7, 120.0, 200.0),
    "li-ion": (3.6, 140.0, 240.0),
    "li-fe": (3.3, 80.0, 130.0),
    "ni-mh": (1.2, 50.0, 100.0),
}


def of_kind(*kinds: PartKind) -> list[Resolved]:
    """The resolved generic parts of some kinds."""
    return [one for one in ALL if one.part.kind in kinds]


def known(value: float | None) -> float:
    """A figure that the part must have."""
    assert value is not None
    return value


def volume_cm3(part: Part) -> float:
    """Outside volume, without the hole of a ring."""
    assert part.size_mm is not None
    length, width, height = part.size_mm
    if part.shape == "box":
        return length * width * height / 1000.0
    inside = part.inside_mm or 0.0
    return math.pi / 4.0 * length * (width * height - inside**2) / 1000.0


def face_mm(part: Part, face: str) -> tuple[float, float]:
    """Width and height of a face of the box."""
    assert part.size_mm is not None
    length, width, height = part.size_mm
    return {
        "front": (width, height),
        "back": (width, height),
        "left": (length, height),
        "right": (length, height),
        "top": (width, length),
        "bottom": (width, length),
    }[face]


def test_there_are_enough_parts_of_every_family() -> None:
    """The catalogue covers the equipment of a large turbine jet."""
    least: dict[PartKind, int] = {
        "receiver": 10,
        "distribution": 8,
        "gyro": 4,
        "display": 2,
        "switch": 4,
        "pack": 20,
        "servo": 12,
        "retract": 10,
        "gear-controller": 3,
        "brake": 4,
        "brake-controller": 3,
        "light-controller": 3,
        "lamp": 8,
        "turbine": 6,
        "turbine-controller": 2,
        "pump": 3,
        "valve": 4,
        "tank": 5,
        "header-tank": 2,
        "telemetry": 8,
        "regulator": 3,
        "antenna": 2,
        "air-tank": 2,
        "duct": 3,
    }
    assert len(ALL) >= 90
    assert [kind for kind, count in least.items() if len(of_kind(kind)) < count] == []


def test_rows_read_one_by_one_are_those_read_whole() -> None:
    """Cutting the files by their opening lines loses and changes nothing."""
    parts, ports = generic()
    assert len({part.id for part in parts}) == len(parts)
    assert generic_ids() == {part.id for part in parts}
    for part in parts:
        own = tuple(port for port in ports if port.part == part.id)
        assert generic_part(part.id) == (part, own)


def test_ports_belong_to_a_part_of_their_own_file_and_have_ids_of_their_own() -> None:
    """Every port stands in the file of its part, and no part has two ports of one name."""
    for name, text in family_texts().items():
        tables = tomllib.loads(text)
        ids = {row["id"] for row in tables["part"]}
        assert {row["part"] for row in tables.get("port", [])} <= ids, name
    for one in ALL:
        names = [name for port in one.ports for name in port.names()]
        assert len(set(names)) == len(names), one.id


def test_raw_rows_are_copies() -> None:
    """What a caller does with the raw rows does not change the catalogue."""
    generic_rows()[0][0]["id"] = "changed"
    assert generic_rows()[0][0]["id"] != "changed"


def test_every_file_says_that_its_figures_are_typical_of_the_class() -> None:
    """The head of each family tells the builder what the figures are worth."""
    for name, text in family_texts().items():
        head = text[: text.index("[[")].replace("\n# ", " ")
        assert "typical of the class" in head, name
        assert "values from memory" in head, name


def test_ids_and_names_are_in_plain_words_of_the_list() -> None:
    """Ids match one pattern, and no word is used that the list beside this test does not hold."""
    used: set[str] = set()
    for one in ALL:
        assert re.fullmatch(r"[a-z][a-z0-9]*(-[a-z0-9]+)*", one.id)
        assert one.part.name, one.id
        text = re.sub(r"\b\d[a-z0-9]*\b", " ", f"{one.id} {one.part.name}".lower())
        used |= set(re.findall(r"[a-z]+", text))
    assert used - WORDS == set()
    assert WORDS - used == set()  # the list holds no more than it needs


def test_boxes_are_neither_foam_nor_lead() -> None:
    """Density lies between 0.2 and 8 g/cm³; tanks, being hollow, are weighed by their contents."""
    for one in ALL:
        if one.part.kind not in HOLLOW:
            assert 0.2 < known(one.part.mass_g) / volume_cm3(one.part) < 8.0, one.id


def test_tanks_hold_what_their_outside_allows() -> None:
    """Capacity is 55 to 97 % of the outside volume; the empty mass 0.05 to 1 g for each ml."""
    for one in of_kind(*HOLLOW):
        capacity_ml = known(one.part.capacity_ml)
        assert 0.55 < capacity_ml / volume_cm3(one.part) < 0.97, one.id
        assert 0.05 < known(one.part.mass_g) / capacity_ml < 1.0, one.id


def test_plug_rows_fit_on_their_faces() -> None:
    """Rows of plugs that stand at one height are together no wider than the face, none too high."""
    for one in ALL:
        for face in {port.face for port in one.ports}:
            width, height = face_mm(one.part, face)
            rows = [
                (port.row_base_mm, port.row_base_mm + port.row_mm[1], port.row_mm[0])
                for port in one.ports
                if port.face == face and port.row_mm is not None
            ]
            for base, top, _ in rows:
                assert top <= height + 1e-9, (one.id, face)
                across = sum(wide for low, high, wide in rows if low < top and base < high)
                assert across <= width + 1e-9, (one.id, face, across, width)


def test_every_port_says_what_it_needs() -> None:
    """Connector, plug and bend are written; a flying lead has no plug; every pack has a lead."""
    for port in generic()[1]:
        assert {"face", "kind", "connector", "plug_mm", "bend_mm"} <= port.model_fields_set, port
        assert (port.flying_lead_mm is not None) == (port.plug_mm == 0.0), port
        if "pole" in port.connector or "pin" in port.connector:
            assert port.poles is not None, port
            assert port.gender != "none", port
            assert port.current_a is not None, port
    for one in of_kind("pack"):
        lead = next(port for port in one.ports if port.id == "lead")
        assert lead.flying_lead_mm is not None
        assert lead.face in ("back", "top")
        assert lead.gender == "socket"  # the live side shows no bare pins
        assert known(one.part.rated_a) <= known(lead.current_a), one.id


def test_outputs_are_as_many_as_the_ports() -> None:
    """What a box promises in `outputs` is what its output ports add up to."""
    for one in of_kind("receiver", "distribution", "gear-controller", "light-controller"):
        names = ("out", "leg", "door", "gear", "steering")
        count = sum(port.count for port in one.ports if port.id.startswith(names))
        assert one.part.outputs == count, one.id


def test_packs_store_what_their_chemistry_can() -> None:
    """Specific energy lies within the bounds of the chemistry, energy density below 450 Wh/l."""
    for one in of_kind("pack"):
        part = one.part
        assert part.chemistry is not None
        cell_v, low, high = CHEMISTRY[part.chemistry]
        nominal_v = known(part.cells) * cell_v
        energy_wh = nominal_v * known(part.capacity_mah) / 1000.0
        assert low <= energy_wh / known(part.mass_g) * 1000.0 <= high, one.id
        assert energy_wh / volume_cm3(part) * 1000.0 < 450.0, one.id
        assert known(part.low_v) < nominal_v < known(part.high_v), one.id


def test_bigger_packs_of_a_family_are_heavier_and_of_less_resistance() -> None:
    """Among packs of one chemistry, build and cell count mass rises and resistance falls."""
    families: dict[tuple[object, ...], list[Part]] = {}
    for one in of_kind("pack"):
        part = one.part
        key = (part.chemistry, part.cells, one.id.endswith("-round"))
        families.setdefault(key, []).append(part)
    for packs in families.values():
        ranked = sorted(packs, key=lambda part: known(part.capacity_mah))
        for small, large in pairwise(ranked):
            assert known(small.mass_g) < known(large.mass_g), large.id
            assert known(small.resistance_mohm) > known(large.resistance_mohm), large.id


@pytest.mark.parametrize("size", ["micro", "mini", "slim-wing", "low-profile", "standard", "large"])
def test_heavier_servos_of_a_size_have_more_torque(size: str) -> None:
    """Within a size, stall torque rises with mass."""
    servos = [one.part for one in of_kind("servo") if one.id.startswith(f"servo-{size}-")]
    assert len(servos) >= 2
    ranked = sorted(servos, key=lambda part: known(part.mass_g))
    for light, heavy in pairwise(ranked):
        assert known(light.mass_g) < known(heavy.mass_g)
        assert known(light.torque_nm) < known(heavy.torque_nm), heavy.id


def test_servos_give_no_more_than_they_take() -> None:
    """Stall torque times no-load speed is 25 to 80 % of stall volts times amperes.

    A direct-current motor without losses has exactly 100 % (torque constant equals speed constant);
    gears and iron take the rest.
    """
    for one in of_kind("servo"):
        part = one.part
        product_w = known(part.torque_nm) * math.radians(60.0) / known(part.time_s)
        stall_a = known(part.stall_a)
        assert 0.25 < product_w / (known(part.high_v) * stall_a) < 0.8, one.id
        assert 0.0 < known(part.idle_a) < known(part.moving_a) < stall_a / 4.0, one.id


def test_turbines_grow_with_thrust() -> None:
    """Mass and fuel rise with thrust; thrust over weight is 7 to 12; specific use is plausible.

    0.12 to 0.25 kg of fuel for each newton and hour at 0.80 g/ml: common practice, no source.
    """
    ranked = sorted((one.part for one in of_kind("turbine")), key=lambda part: known(part.thrust_n))
    for small, large in pairwise(ranked):
        assert known(small.mass_g) < known(large.mass_g)
        assert known(small.flow_ml_min) < known(large.flow_ml_min)
    for part in ranked:
        thrust_n = known(part.thrust_n)
        assert 7.0 < thrust_n / (known(part.mass_g) / 1000.0 * 9.80665) < 12.0, part.id
        kg_per_n_h = known(part.flow_ml_min) * 60.0 * 0.80 / 1000.0 / thrust_n
        assert 0.12 < kg_per_n_h < 0.25, part.id
        assert known(part.hot_degc) > 100.0
        assert part.size_mm is not None
        assert 0.0 < known(part.hot_from_mm) < part.size_mm[0], part.id


def test_pumps_outrun_the_turbines_they_name() -> None:
    """A pump named for turbines up to some thrust delivers more than such a turbine burns."""
    flows = {round(known(one.part.thrust_n)): one.part.flow_ml_min for one in of_kind("turbine")}
    for one in (pump for pump in of_kind("pump") if "fuel" in pump.id):
        named = re.search(r"to (\d+) N", one.part.name)
        assert named is not None
        assert known(one.part.flow_ml_min) > 1.1 * known(flows[int(named[1])]), one.id


def test_what_a_hand_must_reach_and_an_eye_must_see_is_marked() -> None:
    """Switches, charge sockets and manual valves need reach; displays need view on a named face."""
    for one in ALL:
        by_hand = one.part.kind == "switch" or "charge" in one.id or "manual" in one.id
        assert one.part.needs_reach or not by_hand, one.id
        assert one.part.needs_view or one.part.kind != "display", one.id
        assert (one.part.view_face is not None) == one.part.needs_view, one.id


def test_accelerometers_are_declared_where_the_name_says_so() -> None:
    """`has_accelerometer` and the name agree, both ways."""
    for one in ALL:
        assert one.part.has_accelerometer == ("accelerometer" in one.id), one.id
