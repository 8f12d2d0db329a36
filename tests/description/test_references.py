from __future__ import annotations

import pytest

from hardstand.description.model import ROWS
from hardstand.description.references import ref_fields
from tests.aeroplanes import PARTS, SMALL, swapped
from tests.description.reading import line_of, only, problems

LEADS = """
[[part]]
id = "box"
size_mm = [40, 30, 10]
mass_g = 20
[[port]]
part = "box"
id = "out"
count = 3
face = "front"
[[port]]
part = "box"
id = "power"
face = "back"
[[item]]
id = "hub"
part = "box"
at_mm = [300, 0, 0]
[[item]]
id = "hub-2"
part = "box"
at_mm = [400, 0, 0]
[[lead]]
id = "L1"
from = "hub.out-1"
to = "hub-2.power"
"""


@pytest.mark.parametrize(
    "old, new, table, kind, hint",
    [
        ('item = "tank-main"', 'item = "tank-mian"', "tank", "item", "did you mean tank-main?"),
        ('bay = "fuselage"\nx_mm = 700', 'bay = "f"\nx_mm = 700', "section", "bay", "add a bay with that id"),
        ('cg_range_state = "empty"', 'cg_range_state = "emtpy"', "aeroplane", "state", "did you mean empty?"),
        ('part = "main-tank"', 'part = "zzz"', "item", "part", "search with `hardstand parts`"),
        ('id = "full"', 'id = "full"\nwithout = ["nose", "nsoe"]', "state", "item or mass", "did you mean nose?"),
        ('id = "gear-left"', 'id = "gear-left"\nsupports = ["gear-rihgt"]', "item", "item or keep-out or tray",
         "did you mean gear-right?"),
    ],
)  # fmt: skip
def test_a_wrong_reference_is_told_with_the_nearest_name(
    old: str, new: str, table: str, kind: str, hint: str
) -> None:
    """In rows, in lists, and in tables that stand once."""
    found = only(swapped(SMALL, old, new))
    assert found.what.startswith(f"there is no {kind} ")
    assert found.where.startswith(table)
    assert found.hint == hint


@pytest.mark.parametrize(
    "old, new, what",
    [
        ('id = "nose"', 'id = "body"', "there is already a mass with this id"),
        ('id = "nose"', 'id = "tank-main"', "there is already an item with this id"),
        ('id = "full"', 'id = "low"', "there is already a state with this id"),
    ],
)
def test_an_id_given_twice_is_told_at_the_second(old: str, new: str, what: str) -> None:
    """Also where items and masses, which loading states name together, have the same id."""
    found = only(swapped(SMALL, old, new))
    assert found.what == what
    assert found.hint == "give this one another id"


def test_ports_of_two_parts_may_have_the_same_id() -> None:
    """A port's id is its part's own; in one part it is given once."""
    ports = '[[port]]\npart = "{}"\nid = "lead"\nface = "front"\n'
    parts = PARTS + ports.format("strut") + ports.format("main-tank")
    assert not problems(parts=parts)
    assert only(parts=parts + ports.format("strut")).what == "there is already a port with this id"


def test_names_of_numbered_ports_do_not_meet() -> None:
    """`out` with a count of 2 has an out-1 of its own."""
    port = '[[port]]\npart = "strut"\nid = "{}"\ncount = {}\nface = "front"\n'
    found = only(parts=PARTS + port.format("out", 2) + port.format("out-1", 1))
    assert found.what == "part strut has more than one port out-1"


@pytest.mark.parametrize(
    "end, what, hint",
    [
        ("hub.out-4", "hub has no port out-4", "did you mean hub.out-3?"),
        ("hub.out", "hub has no port out", "this row has 3 ports: name one of out-1 to out-3"),
        ("hub.pwoer", "hub has no port pwoer", "did you mean hub.power?"),
        ("hbu.out-1", "there is no item hbu", "did you mean hub.out-1?"),
        ("hub", "at which port of hub?", ""),
        ("tank-main.lead", "tank-main has no port lead", ""),
    ],
)
def test_an_end_of_a_lead_names_a_port_that_is_there(end: str, what: str, hint: str) -> None:
    """Unknown items and ports are told of at the lead's end, with the nearest."""
    main = SMALL + LEADS.replace('from = "hub.out-1"', f'from = "{end}"')
    found = only(main)
    assert (found.what, found.hint) == (what, hint)
    assert found.line == line_of(main, 'from = "')


def test_a_lead_has_two_ends() -> None:
    """One port at both is a slip."""
    found = only(SMALL + LEADS.replace("hub.out-1", "hub-2.power"))
    assert found.what == "both ends of this lead are hub-2.power"


@pytest.mark.parametrize("end", ["wing-plug", "unknown", "hub.out-3", "lamp"])
def test_an_end_may_be_a_joint_or_unknown(end: str) -> None:
    """A name without a point that is no item's."""
    assert not problems(SMALL + LEADS.replace('from = "hub.out-1"', f'from = "{end}"'))


def test_what_an_unknown_end_may_be_is_looked_at_too() -> None:
    """Each candidate is an end like any other; with both ends named there is nothing to guess."""
    main = (
        SMALL + LEADS.replace('"hub.out-1"', '"unknown"') + 'may_be = ["hub.out-1", "hub.out-9"]\n'
    )
    found = only(main)
    assert found.what == "hub has no port out-9"
    assert found.where == "lead L1, may_be, number 2"
    assert "may_be goes with an end" in only(SMALL + LEADS + 'may_be = ["hub.out-2"]\n').what


def test_ports_are_taken_as_named_where_parts_cannot_be_read() -> None:
    """A slip in a part costs one problem, not one for each lead."""
    main = SMALL + LEADS.replace("mass_g = 20", "mass_g = -20").replace("out-1", "out-77")
    assert only(main).where == "part box, mass_g"


def test_holes_that_leads_pass_are_there() -> None:
    """`via` names holes."""
    assert only(f'{SMALL}{LEADS}via = ["hole-front"]\n').what == "there is no hole hole-front"


def test_which_fields_refer_to_what() -> None:
    """Lists, choices of tables and aliases are found."""
    fields = {table: dict(ref_fields(model)) for table, model in ROWS.items()}
    assert fields["state"] == {"without": ("item", "mass")}
    assert fields["item"]["supports"] == ("item", "keep_out", "tray")
    assert fields["lead"] == {"branch_of": ("lead",), "cable": ("lead",), "via": ("hole",)}
