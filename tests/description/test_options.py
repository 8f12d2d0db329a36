from __future__ import annotations

import pytest

from hardstand.changes import AddRow, Change, RemoveRow
from hardstand.description.option_changes import changes_of
from tests.aeroplanes import SMALL
from tests.description.reading import line_of, only, problems, read

HUB = """
[[option]]
id = "two"
[option.replace]
item = ["gear-nose"]
with = ["gear-new", "gear-extra"]
[[option.add.item]]
id = "gear-new"
part = "strut"
at_mm = [450, 0, -100]
[[option.add.item]]
id = "gear-extra"
part = "strut"
at_mm = [480, 0, -100]
[option.set]
"leg.nose-leg.item" = "gear-new"
"mass.body.mass_g" = "5.9 kg"
"""
LIGHT = '\n[[option]]\nid = "light"\n[option.set]\n"mass.nose.mass_g" = 900\n"cg_mark.at_tol_mm" = 0.5\n'


def test_an_option_is_laid_over() -> None:
    """Rows out, rows in, values set; the base reads as before."""
    base, laid = read(SMALL + HUB).description, read(SMALL + HUB, options=["two"]).description
    assert "gear-nose" in [item.id for item in base.item]
    assert [item.id for item in laid.item] == [
        "tank-main", "gear-left", "gear-right", "gear-new", "gear-extra"]  # fmt: skip
    assert laid.leg[0].item == "gear-new"
    assert laid.mass[0].mass_g == 5900.0
    assert base.mass[0].mass_g == 6000.0


def test_options_are_laid_in_the_order_named() -> None:
    """Several, each once however often it is named; tables that stand once too."""
    found = read(SMALL + HUB + LIGHT, options=["light", "two", "light"])
    assert found.options == ("light", "two", "light")
    assert [mass.mass_g for mass in found.description.mass] == [5900.0, 900.0, 700.0]
    assert found.description.cg_mark is not None
    assert found.description.cg_mark.at_tol_mm == 0.5


def test_a_table_that_stands_once_can_be_made_by_an_option() -> None:
    """It is whole or it is refused, at the option's line."""
    option = '\n[[option]]\nid = "o"\n[option.set]\n"stability.body_tol_pct" = 3\n'
    assert read(SMALL + option).description.stability is None
    assert read(SMALL + option, options=["o"]).description.stability is not None


def test_every_line_of_a_row_is_known_after_rows_were_taken_out() -> None:
    """A row in the base, one that an option brought, and a value that it set."""
    main = SMALL + HUB
    raw = read(main, options=["two"]).raw
    ids = [row["id"] for row in raw.rows["item"]]
    for name in ("gear-left", "gear-extra"):
        index = ids.index(name)
        assert raw.line("item", index, "id") == ("aeroplane.toml", line_of(main, f'id = "{name}"'))
    assert raw.line("mass", 0, "mass_g") == ("aeroplane.toml", line_of(main, '"mass.body.mass_g"'))
    assert raw.line("mass", 0, "at_mm")[1] == line_of(main, "at_mm = [990, 0, 0]")


CLASHES = [
    ('remove = ["mass.nose"]', '[option.set]\n"mass.nose.mass_g" = 1', "mass.nose"),
    ('[option.set]\n"mass.nose.mass_g" = 1', 'remove = ["mass.nose"]', "mass.nose.mass_g"),
    ('[option.set]\n"mass.nose.mass_g" = 1', '[option.set]\n"mass.nose.mass_g" = 1', "mass.nose.mass_g"),
    ('[[option.add.mass]]\nid = "x"\nmass_g = 1\nat_mm = [1, 2, 3]',
     '[[option.add.mass]]\nid = "x"\nmass_g = 1\nat_mm = [1, 2, 3]', "mass.x"),
    ('[[option.add.mass]]\nid = "x"\nmass_g = 1\nat_mm = [1, 2, 3]',
     '[option.set]\n"mass.x.mass_g" = 2', "mass.x.mass_g"),
]  # fmt: skip


@pytest.mark.parametrize("one, other, address", CLASHES)
def test_two_options_that_touch_one_address_are_refused(one: str, other: str, address: str) -> None:
    """Whichever way they touch it; each alone can be read."""
    main = f'{SMALL}\n[[option]]\nid = "a"\n{one}\n[[option]]\nid = "b"\n{other}\n'
    found = problems(main, options=["a", "b"])
    assert f"the options a and b both change {address}" in [problem.what for problem in found]
    assert not problems(main)
    assert not problems(main, options=["a"])


def test_an_option_may_build_on_a_row_of_another() -> None:
    """A field that the row does not give, set by a second option."""
    main = (f'{SMALL}\n[[option]]\nid = "a"\n[[option.add.mass]]\nid = "x"\nmass_g = 1\nat_mm = [1, 2, 3]\n'
            '[[option]]\nid = "b"\n[option.set]\n"mass.x.mass_tol_g" = 2\n')  # fmt: skip
    assert not problems(main)
    assert read(main, options=["a", "b"]).description.mass[-1].mass_tol_g == 2.0
    assert only(main, options=["b"]).what == "there is no mass x"


WRONG = [
    ('remove = ["mass.nsoe"]', "there is no mass nsoe", "did you mean nose?"),
    ('remove = ["mas.nose"]', 'there is no table "mas" that an option can add to or take from',
     "did you mean mass?"),
    ('remove = ["measurement.a"]', 'there is no table "measurement" that an option can add to or take from',
     "write the table and the row's id, such as mass.ballast"),
    ("remove = [5]", "5 has the wrong form", ""),
    ("remove = 5", "5 has the wrong form", ""),
    ('[option.replace]\nitem = ["gear-nose"]\nwith = ["zzz"]', "there is no item zzz",
     "add [[option.add.item]] with that id"),
    ('[option.set]\n"mass.nsoe.mass_g" = 4', "there is no mass nsoe", "did you mean nose?"),
    ('[option.set]\n"mass.nose.mass_kg" = 4', "there is no field mass_kg here",
     'write mass_g, in g; another unit can be written as text, mass_g = "…"'),
    ('[option.set]\n"mass.nose.mass_g" = -4', "-4 is out of range", "mass_g is in g"),
    ('[option.set]\n"mass.nose.at_mm.x" = 4', "mass.nose.at_mm.x cannot be set", "give the whole value of at_mm"),
    ('[option.set]\n"mass.nose.id" = "n"', "mass.nose.id cannot be set", "an id stays as it is"),
    ('[option.set]\n"nose" = 4', '"nose" is not an address: write kind.id.field, such as item.rx-left.at_mm', ""),
    ('[option.set]\n"mas.nose.mass_g" = 4', "mas.nose.mass_g is in no table that an option can change",
     "did you mean mass?"),
    ('[option.set]\n"cg_mark.x.at_tol_mm" = 4', "cg_mark.x.at_tol_mm is in no table that an option can change",
     "write kind.id.field"),
    ('[option.set]\n"option.o.note" = "x"', "option.o.note is in no table that an option can change",
     "write kind.id.field"),
    ("[option.set]\nmass.nose.mass_g = 4", "mass is no address of a field",
     'put the whole address in quotes: "item.rx.turn_deg" = 90'),
    ('[option.set]\n"cg_mark.at_mm" = [1, 2]', "this list has 2 entries", ""),
    ('[option.set]\n"item.gear-left.part" = "sturt"', "there is no part sturt", "did you mean strut?"),
    ('[[option.add.mass]]\nid = "nose"\nmass_g = 1\nat_mm = [1, 2, 3]', "there is already a mass with this id",
     "give this one another id"),
    ('[[option.add.mass]]\nid = "n"\nmass_g = 1', "at_mm is missing", "add at_mm"),
    ('[[option.add.mas]]\nid = "n"', 'there is no table "mas" that an option can add to or take from',
     "did you mean mass?"),
    ("[option.add]\nmass = 5", "5 has the wrong form", ""),
    ('colour = "red"', "there is no field colour here",
     "take the line out, or see `hardstand schema` for what each table may hold"),
]  # fmt: skip


@pytest.mark.parametrize("laid", [False, True])
@pytest.mark.parametrize("body, what, hint", WRONG)
def test_a_slip_in_an_option_is_told_whether_it_is_laid_or_not(
    body: str, what: str, hint: str, *, laid: bool
) -> None:
    """Once, at a line of the option."""
    found = [one for one in problems(f'{SMALL}\n[[option]]\nid = "o"\n{body}\n', options=["o"] if laid else [])
             if not one.where.startswith(("leg", "option o: leg"))]  # fmt: skip
    assert [(one.what, one.hint) for one in found] == [(what, hint)]
    assert found[0].line is not None
    assert found[0].line > SMALL.count("\n")


def test_what_an_option_leaves_behind_is_told() -> None:
    """The leg whose item is taken out, by the leg's line."""
    found = only(f'{SMALL}\n[[option]]\nid = "o"\nremove = ["item.gear-nose"]\n')
    assert found.where == "option o: leg nose-leg, item"
    assert found.what == "there is no item gear-nose"


def test_an_option_that_is_not_there() -> None:
    """With the nearest, and with what there is."""
    found = only(SMALL + LIGHT, options=["ligth"])
    assert (found.what, found.expected, found.hint) == (
        "there is no option ligth", "one of light", "did you mean light?")  # fmt: skip
    assert only(options=["x"]).expected == "no option: none is described"


def test_a_slip_in_the_base_is_not_told_again_by_each_option() -> None:
    """One wrong reference, two options."""
    main = (SMALL + HUB + LIGHT).replace('item = "tank-main"', 'item = "tank-mian"')
    assert len(problems(main)) == 1


def test_the_changes_of_an_option() -> None:
    """In the order replace, remove, add, set; what has another form is left to the models."""
    row = {"set": {"a.b.c": 1}, "add": {"mass": [{"id": "m"}, 5], "item": 5}, "remove": ["mass.x", 5],
           "replace": {"item": ["hub", 5], "with": ["m"], "mass": 7}}  # fmt: skip
    assert list(changes_of(row)) == [
        RemoveRow("item", "hub"), RemoveRow("mass", "x"), AddRow("mass", {"id": "m"}), Change("a.b.c", None, 1),
    ]  # fmt: skip
    assert list(changes_of({"set": 1, "add": [], "remove": {}, "replace": None})) == []
