"""Ports' roles, leads' wires and plugs, joints, loads, channels and phases as they are read."""

from __future__ import annotations

import pytest

from hardstand.description.catalogue import Catalogue
from hardstand.description.generic_parts import generic_ids
from hardstand.description.port_roles import roles, usual_pins
from tests.aeroplanes import SMALL
from tests.description.reading import only, problems, read

ROWS = """
[[part]]
id = "box"
kind = "receiver"
size_mm = [20, 20, 20]
mass_g = 20
[[port]]
part = "box"
id = "out"
count = 3
face = "front"
poles = 3
[[item]]
id = "rx"
part = "box"
at_mm = [1, 2, 3]
[[joint]]
id = "wing"
ways = ["aileron", "flap"]
poles = 6
[[lead]]
id = "L1"
from = "rx.out-1"
to = "wing.aileron"
awg = 22
[[lead]]
id = "L2"
from = "rx.out-1"
to = "wing.flap"
branch_of = "L1"
[[channel]]
id = "aileron"
function = ["roll"]
at = ["rx.out-1"]
[[phase]]
id = "taxi"
kind = "taxi"
duration_s = 60
[[duty]]
id = "taxi-roll"
phase = "taxi"
function = "roll"
moving_pct = 30
"""
MAIN = SMALL + ROWS


def test_all_of_it_reads_with_what_is_usual() -> None:
    """Everything but what names the row may be left out."""
    found = read(MAIN).description
    lead = found.lead[0]
    assert (lead.connector, lead.direct, lead.shield, lead.from_pins) == ("", False, "none", None)
    assert (found.channel[0].side, found.phase[0].turbine) == ("whole", "run")
    assert found.joint[0].way_pins == ("signal", "plus", "minus")


@pytest.mark.parametrize(
    "old, new, what",
    [
        ("awg = 22", "awg = 22\narea_mm2 = 0.3",
         "awg and area_mm2 both say how thick the wire is: give one of them"),
        ("awg = 22", "direct = true\nlength_mm = 30",
         "direct says that there is no lead: it has no length_mm and no plugs"),
        ("poles = 6", "poles = 5", "2 x 3 pins are more than 5 poles"),
        ('["aileron", "flap"]', '["flap", "flap", "aileron"]\n', "3 x 3 pins are more than 6 poles"),
        ("wing.aileron", "wing.ailron", "joint wing has no way ailron"),
        ('to = "wing.aileron"', 'to = "wing"', "at which way of the joint wing?"),
        ('at = ["rx.out-1"]', 'at = ["rx.out-9"]', "rx has no port out-9"),
        ('["roll"]', '["rol"]', '"rol" is not one of the words known here'),
        ("moving_pct = 30", "moving_pct = 70\nstall_pct = 40",
         "moving_pct and stall_pct together are more than all of the time"),
        ('id = "wing"\n', 'id = "rx"\n', "there is an item rx, and leads end at either"),
        ('branch_of = "L1"', 'branch_of = "L2"', "a lead cannot branch from itself"),
        ("poles = 3", 'poles = 3\npins = ["plus", "plus", "minus"]', "two pins have one name"),
        ("poles = 3", 'poles = 3\npins = ["plus", "minus"]',
         "2 pins are named, and there are 3 poles"),
    ],
)  # fmt: skip
def test_each_slip_is_told_of_where_it_stands(old: str, new: str, what: str) -> None:
    """One clear problem each, with its line."""
    main = MAIN.replace(old, new)
    if 'id = "rx"\nways' in main:
        main = main.replace('"wing.aileron"', '"rx.out-2"').replace('"wing.flap"', '"rx.out-3"')
    found = only(main)
    assert found.what == what
    assert found.line is not None


def test_a_branch_begins_where_its_lead_does() -> None:
    """Two ends that share a plug share a port."""
    main = MAIN.replace('from = "rx.out-1"\nto = "wing.flap"', 'from = "rx.out-2"\nto = "wing.flap"')
    assert only(main).what == "L1 begins at rx.out-1, and this lead at rx.out-2"


def test_a_phase_has_one_duty_for_a_function() -> None:
    """The second one is a slip."""
    again = ROWS[ROWS.index("[[duty]]") :].replace('"taxi-roll"', '"again"')
    assert only(MAIN + again).what == "phase taxi already has a duty for roll"


def test_a_joint_without_ways_is_named_alone() -> None:
    """Its id is the end."""
    main = MAIN.replace('ways = ["aileron", "flap"]\n', "").replace("wing.aileron", "wing")
    assert not problems(main.replace("wing.flap", "wing"))


def test_every_electric_port_of_the_catalogue_has_a_role() -> None:
    """Power or signal goes one way or the other, and there is a name for each pin."""
    catalogue = Catalogue()
    for part_id in sorted(generic_ids()):
        resolved = catalogue.resolve(part_id)
        for port in resolved.ports:
            found = roles(resolved.part, port)
            idle = (found.power, found.signal) == ("none", "none")
            assert idle == (port.kind in ("fuel", "air")), (part_id, port.id)
            assert port.poles is None or len(found.pins) == port.poles, (part_id, port.id)


def test_a_ports_own_words_win() -> None:
    """What is stated is not what is usual."""
    own = MAIN.replace("poles = 3", 'poles = 3\npower = "none"\npins = ["minus", "plus", "signal"]')
    item = read(own).description.port[-1]
    part = next(one for one in read(own).description.part if one.id == "box")
    assert roles(part, item).power == "none"
    assert roles(part, item).pins == ("minus", "plus", "signal")
    assert usual_pins("both", 3) == ("signal", "plus", "minus")
