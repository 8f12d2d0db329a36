from __future__ import annotations

import pytest

from hardstand.description.set_aside import SetAside
from tests.aeroplanes import PARTS, SMALL, WEIGHED
from tests.description.reading import only, problems, read

NEW = """
[[option]]
id = "new"
[option.replace]
item = ["gear-nose"]
with = ["gear-new"]
[[option.add.item]]
id = "gear-new"
part = "strut"
at_mm = [450, 0, -100]
[option.set]
"leg.nose-leg.item" = "gear-new"
[[option]]
id = "leads"
[[option.add.lead]]
id = "L1"
from = "here"
to = "there"
"""
MEASURED = """
[[measurement]]
id = "m"
address = "item.{}.mass_g"
value = 310
declared = 300
part = "strut"
"""
ACCEPT = '[[accept]]\nid = "a"\ncode = "fit.gap"\nabout = ["gear-{}"]\nby = "me"\nreason = "so"\n'
SCALES = WEIGHED.format(nose=1500, left=4000, right=4000)


def aside(main: str, measurements: str = "", options: tuple[str, ...] = ("new",)) -> list[tuple[str, str, str]]:
    """Table, id and reason of what is set aside."""
    return [(one.table, one.id, one.why) for one in read(main, measurements, options=options).set_aside]


def test_a_measurement_of_what_an_option_takes_out_is_set_aside() -> None:
    """It can be read with the option, names why it does not apply, and stands again without it."""
    text = MEASURED.format("gear-nose")
    laid = read(SMALL + NEW, text, options=["new"])
    assert laid.set_aside == (
        SetAside("measurement", "m", "item.gear-nose.mass_g", "there is no item gear-nose"),)
    assert laid.description.measurement == ()
    base = read(SMALL + NEW, text)
    assert base.set_aside == ()
    assert [one.id for one in base.description.measurement] == ["m"]


def test_a_measurement_of_what_only_an_option_brings_is_set_aside_without_it() -> None:
    """So that measuring with an option laid over leaves the folder readable."""
    text = MEASURED.format("gear-new")
    assert aside(SMALL + NEW, text, ()) == [("measurement", "m", "there is no item gear-new")]
    assert aside(SMALL + NEW, text) == []


def test_a_measured_value_that_the_option_leaves_no_room_for_is_set_aside() -> None:
    """A place of three numbers on an item that an option puts on a tray."""
    main = (SMALL + '[[tray]]\nid = "t"\ntop_z_mm = 0\noutline_mm = [[0, -50], [900, -50], [900, 50], [0, 50]]\n'
            '[[option]]\nid = "new"\n[option.set]\n"item.gear-left.on" = "t"\n'
            '"item.gear-left.at_mm" = [500, 0]\n')  # fmt: skip
    text = '[[measurement]]\nid = "m"\naddress = "item.gear-left.at_mm"\nvalue = [1120, -250, -100]\n'
    assert [one[:2] for one in aside(main, text)] == [("measurement", "m")]
    assert aside(main, text, ()) == []


def test_a_slip_in_a_measurement_is_still_told_with_an_option() -> None:
    """What names nothing that the files hold anywhere."""
    found = only(SMALL + NEW, MEASURED.format("gear-noes"), options=["new"])
    assert found.what == "there is no item gear-noes"


def test_what_was_accepted_of_an_item_taken_out_is_set_aside() -> None:
    """Though another of a like name is there; a mistyped one is told of as before."""
    main = SMALL + NEW + ACCEPT.format("nose")
    assert aside(main) == [("accept", "a", "there is no gear-nose")]
    assert aside(main, options=()) == []
    assert only(SMALL + NEW + ACCEPT.format("noes"), options=["new"]).where == "accept a, about"


@pytest.mark.parametrize("options", [(), ("new",)])
def test_rows_that_ask_for_nothing_of_an_item_taken_out_let_go_of_it(options: tuple[str, ...]) -> None:
    """What it supports, and the states without it; also while the option is only tried."""
    main = SMALL.replace('id = "gear-left"\n', 'id = "gear-left"\nsupports = ["gear-nose", "tank-main"]\n', 1)
    main = main.replace('id = "low"\n', 'id = "low"\nwithout = ["gear-nose"]\n') + NEW
    found = read(main, options=options).description
    supports = next(one.supports for one in found.item if one.id == "gear-left")
    assert supports == (("tank-main",) if options else ("gear-nose", "tank-main"))
    assert found.state[-1].without == (() if options else ("gear-nose",))


def test_a_pack_on_hand_for_an_item_taken_out_goes_nowhere() -> None:
    """Without a name it could go anywhere: the row is set aside; with another name left it stands."""
    main = SMALL + NEW + '[[on_hand]]\nid = "p"\npart = "strut"\ninstead_of = [{}]\n'
    assert aside(main.format('"gear-nose"')) == [("on_hand", "p", "there is no gear-nose")]
    both = read(main.format('"gear-nose", "gear-left"'), options=["new"])
    assert both.description.on_hand[0].instead_of == ("gear-left",)


def test_a_weigh_in_holds_only_for_what_was_weighed() -> None:
    """One without the option does not apply with it, and the other way round; leads weigh nothing here."""
    main = SMALL + NEW
    said = [("weighing", "first", "it was weighed without the option new")]
    assert aside(main, SCALES) == said
    assert read(main, SCALES, options=["new"]).description.reading == ()
    assert aside(main, SCALES, ()) == []
    assert aside(main, SCALES, ("leads",)) == []
    built_in = SCALES.replace('state = "empty"\n', 'state = "empty"\noptions = ["new"]\n')
    assert aside(main, built_in) == []
    assert aside(main, built_in, ("leads", "new")) == []
    assert aside(main, built_in, ()) == [("weighing", "first", "it was weighed with the option new")]


def test_a_weigh_in_on_a_leg_that_is_gone_is_set_aside() -> None:
    """With its readings."""
    main = SMALL + '[[option]]\nid = "new"\nremove = ["leg.nose-leg"]\n'
    assert aside(main, SCALES) == [("weighing", "first", "there is no nose-leg")]


def test_a_lead_to_an_item_taken_out_is_an_error_until_the_option_says_what_happens() -> None:
    """With its line; a lead that the option leads elsewhere is none."""
    main = SMALL + '[[lead]]\nid = "L"\nfrom = "gear-nose.lead"\nto = "x"\n' + NEW
    parts = PARTS + '[[port]]\npart = "strut"\nid = "lead"\nface = "top"\n'
    assert [one.what for one in problems(main, parts=parts, options=["new"])] == ["there is no item gear-nose"]
    led = main.replace('"leg.nose-leg.item" =', '"lead.L.from" = "gear-new.lead"\n"leg.nose-leg.item" =')
    assert problems(led, parts=parts, options=["new"]) == ()


def test_ids_of_rows_set_aside_are_taken() -> None:
    """So that what is measured next does not stand twice under one id."""
    laid = read(SMALL + NEW, MEASURED.format("gear-nose"), options=["new"])
    assert laid.ids_taken("measurement") == {"m"}


@pytest.mark.parametrize("wrong", ["id = -1", "id = [1]", ""])
def test_a_reading_without_a_readable_id_goes_with_its_weigh_in(wrong: str) -> None:
    """And is told of as a slip, though an option is there that would set it aside."""
    readings = SCALES.replace('id = "r-nose"', wrong)
    assert readings != SCALES
    found = problems(SMALL + NEW, readings)
    assert [one.where.startswith("reading number 1") for one in found] == [True]
