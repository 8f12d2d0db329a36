"""Builder's rows laid over generic ones, chains merged, parts found by words."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.description.catalogue import (
    Catalogue,
    PartError,
    UnknownPartError,
    generic,
    generic_ids,
    resolve,
    resolved_parts,
    search,
)
from hardstand.description.model import Description
from hardstand.description.parts import Part, PartKind, Port

RECEIVER = "receiver-12-channel"
IDS = sorted(generic_ids())


def test_a_field_of_the_child_wins_and_the_rest_is_inherited() -> None:
    """The builder's mass stands in their row, the size in the catalogue's."""
    mine = resolve("mine", [Part(id="mine", extends=RECEIVER, mass_g=21.0)])
    assert mine.part.mass_g == 21.0
    assert mine.part.size_mm == resolve(RECEIVER).part.size_mm
    assert mine.part.kind == "receiver"
    assert mine.part.extends is None
    assert mine.chain == ("mine", RECEIVER)
    assert mine.stands_at("mass_g") == "part.mine.mass_g"
    assert mine.stands_at("size_mm") == f"part.{RECEIVER}.size_mm"
    assert not mine.is_generic("mass_g")
    assert mine.is_generic("size_mm")


def test_a_field_that_nobody_sets_stands_nowhere() -> None:
    """A default has no address and is nobody's own figure; an unknown field is refused."""
    part = resolve("mine", [Part(id="mine", size_mm=(10.0, 10.0, 10.0), mass_g=5.0)])
    assert part.stands_at("needs_reach") == ""
    assert part.is_generic("needs_reach")
    with pytest.raises(ValueError, match="no field weight"):
        part.stands_at("weight")


def test_an_explicit_value_equal_to_the_default_still_wins() -> None:
    """A child that writes `needs_reach = false` undoes its parent's true."""
    mine = resolve("mine", [Part(id="mine", extends="switch-magnetic", needs_reach=False)])
    assert not mine.part.needs_reach
    assert resolve("switch-magnetic").part.needs_reach


def test_own_ports_replace_those_of_the_same_id_and_add_others() -> None:
    """One port is replaced in its place, one is added, the rest are inherited."""
    ports = [Port(part="mine", id="bus", face="top"), Port(part="mine", id="light", face="left")]
    mine = resolve("mine", [Part(id="mine", extends=RECEIVER)], ports)
    before = {port.id: port for port in resolve(RECEIVER).ports}
    after = {port.id: port for port in mine.ports}
    assert list(after) == [*before, "light"]
    assert after["bus"].face == "top"
    assert after["bus"].part == "mine"
    assert after["out-front"] is before["out-front"]
    assert mine.own_ports == {"bus", "light"}


def test_a_row_with_a_generic_id_takes_its_place_whole() -> None:
    """Without `extends` nothing of the generic part is left, ports included."""
    own = resolve(RECEIVER, [Part(id=RECEIVER, size_mm=(50.0, 30.0, 12.0), mass_g=18.0)])
    assert own.chain == (RECEIVER,)
    assert own.generic == (False,)
    assert own.ports == ()
    assert own.part.low_v is None


def test_a_row_that_extends_its_own_generic_id_varies_it() -> None:
    """`extends` with the row's own id changes only what is given."""
    own = resolve(RECEIVER, [Part(id=RECEIVER, extends=RECEIVER, mass_g=18.5)])
    assert own.chain == (RECEIVER, RECEIVER)
    assert own.generic == (False, True)
    assert own.part.mass_g == 18.5
    assert not own.is_generic("mass_g")
    assert own.is_generic("low_v")
    assert own.ports == resolve(RECEIVER).ports


def test_a_port_alone_varies_a_generic_part() -> None:
    """A builder's port needs no part row, and reaches what the builder extends from that part."""
    port = Port(part=RECEIVER, id="bus", face="right")
    assert resolve(RECEIVER, [], [port]).own_ports == {"bus"}
    mine = resolve("mine", [Part(id="mine", extends=RECEIVER)], [port])
    assert next(one.face for one in mine.ports if one.id == "bus") == "right"


def test_replacing_a_generic_part_changes_no_other_generic_part() -> None:
    """A generic part extends the generic one even where the builder replaced that or its port."""
    child, parent = "pack-li-po-2s-1800", "pack-li-po-2s-1300"
    assert resolve(child).chain == (child, parent)
    replaced = Part(id=parent, size_mm=(1.0, 1.0, 1.0), mass_g=1.0)
    port = Port(part=parent, id="lead", face="left")
    assert resolve(child, [replaced], [port]) == resolve(child)
    assert resolve(child, [], [port]) == resolve(child)


def test_an_unknown_part_names_the_nearest() -> None:
    """The message and the exception hold the names most like the one given."""
    with pytest.raises(UnknownPartError, match="receiver-12-channel") as caught:
        resolve("reciever-12-chanel")
    assert caught.value.nearest[0] == RECEIVER
    with pytest.raises(UnknownPartError, match=r"no part servo-giant \(extended by mine\)"):
        resolve("mine", [Part(id="mine", extends="servo-giant")])


@pytest.mark.parametrize("circle", [("a",), ("a", "b"), ("a", "b", "c")])
def test_a_circle_of_extends_is_named(circle: tuple[str, ...]) -> None:
    """A part that extends itself, straight or over others, is refused with the way round."""
    parts = [Part(id=one, extends=circle[(i + 1) % len(circle)]) for i, one in enumerate(circle)]
    if len(circle) == 1:
        with pytest.raises(UnknownPartError, match="no generic part a"):
            resolve("a", parts)
    else:
        with pytest.raises(PartError, match="circle: " + " → ".join([*circle, "a"])):
            resolve("a", parts)


def test_a_whole_that_does_not_agree_is_refused_in_plain_words() -> None:
    """Fields that are right alone and wrong together are found when merged."""
    with pytest.raises(PartError, match="part mine, with what it extends: low_v 9 is above high_v"):
        resolve("mine", [Part(id="mine", extends=RECEIVER, low_v=9.0)])


def test_a_ring_made_a_box_loses_its_inside() -> None:
    """The inside diameter of an inherited ring does not outlive a change of shape."""
    mine = Part(id="mine", extends="lamp-ring-nozzle", shape="box", size_mm=(20.0, 20.0, 20.0))
    assert resolve("mine", [mine]).part.inside_mm is None


@given(st.sampled_from(IDS), st.floats(1.0, 5000.0))
def test_every_generic_part_can_be_varied(part_id: str, mass_g: float) -> None:
    """Whatever is extended, the mass given is the mass found and all else is as it was."""
    before = resolve(part_id)
    after = resolve("mine", [Part(id="mine", extends=part_id, mass_g=mass_g)])
    assert after.part == before.part.model_copy(update={"id": "mine", "mass_g": mass_g})
    assert after.ports == before.ports
    assert after.chain[1:] == before.chain
    assert before.part.model_fields_set == before.set_by.keys()


def test_one_catalogue_answers_alike_each_time() -> None:
    """What was resolved once is remembered, and all ids are known."""
    catalogue = Catalogue([Part(id="mine", extends=RECEIVER)])
    assert catalogue.resolve("mine") is catalogue.resolve("mine")
    assert catalogue.ids == generic_ids() | {"mine"}
    assert [part.id for part in catalogue.parts()] == sorted(catalogue.ids)


def test_only_the_parts_that_are_named_are_resolved() -> None:
    """Items and packs on hand name parts; each stands once in the answer."""
    rows = {
        "format": 1,
        "aeroplane": {"name": "Bare"},
        "item": [
            {"id": "a", "part": RECEIVER, "at_mm": [0, 0, 0]},
            {"id": "b", "part": "mine", "at_mm": [0, 0, 0]},
        ],
        "on_hand": [{"id": "c", "part": "pack-li-fe-2s-2100"}],
        "part": [{"id": "mine", "extends": RECEIVER}],
    }
    assert list(resolved_parts(Description.model_validate(rows))) == [
        RECEIVER,
        "mine",
        "pack-li-fe-2s-2100",
    ]


@pytest.mark.parametrize(
    "words, kind, expected",
    [
        ("receiver 12 remote", None, ["receiver-12-channel-remote-aerials"]),
        ("turbine 125", "turbine", ["turbine-125-n"]),
        ("trubine 125", "turbine", ["turbine-125-n"]),
        ("polymer 2s 3600", None, ["pack-li-po-2s-3600"]),
        ("tank 250", None, ["header-tank-250"]),
        ("receiver zzzzqq", None, []),
        ("receiver", "pack", []),
    ],
)
def test_search_finds_by_words(words: str, kind: PartKind | None, expected: list[str]) -> None:
    """Every word counts, a slip is read as the nearest word, numbers fit only whole."""
    assert [part.id for part in search(words, kind)] == expected


def test_search_puts_6_before_12_and_sees_own_parts() -> None:
    """Ids are in the order a person expects; with parts given, those are searched."""
    found = [part.id for part in search("receiver channels", "receiver")]
    assert found.index("receiver-6-channel") < found.index("receiver-12-channel")
    mine = Catalogue([Part(id="mine", name="Spare gadget", extends=RECEIVER)])
    assert [part.id for part in search("gadget", parts=mine.parts())] == ["mine"]
    assert len(search("")) == len(generic()[0])


def test_the_examples_of_the_page_about_parts_hold() -> None:
    """Every example of docs/parts.md is read, resolved, and means what the page says of it."""
    page = (Path(__file__).parents[2] / "docs" / "parts.md").read_text("utf-8")
    tables = tomllib.loads("\n".join(re.findall(r"```toml\n(.*?)```", page, re.DOTALL)))
    catalogue = Catalogue(
        [Part.model_validate(row) for row in tables["part"]],
        [Port.model_validate(row) for row in tables["port"]],
    )
    receiver, servo = (catalogue.resolve(row["id"]) for row in tables["part"])
    assert receiver.ports[0].names()[-1] == "out-6"
    assert not receiver.is_generic("mass_g")
    assert servo.part.size_mm == resolve("servo-standard-brushless-8v4").part.size_mm
    assert [port.flying_lead_mm for port in servo.ports] == [350.0]
    assert servo.stands_at("torque_nm") in page
