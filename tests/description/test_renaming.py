from __future__ import annotations

import tomllib
from importlib.resources import files
from typing import Any

import pytest

from hardstand.description.former_ids import RENAMED
from hardstand.description.new_ids import RenameError
from hardstand.description.raw import parse
from hardstand.description.read import read_texts
from hardstand.description.renaming import rename
from hardstand.description.write import apply_to_texts

MAIN = """\
format = 1

[aeroplane]
name = "Heron"

[[state]]
id = "light"
without = ["rx"]          # taken out for the drive

[[tray]]
id = "front"
outline_mm = [[100, -60], [400, -60], [400, 60], [100, 60]]
top_z_mm = -10

[[item]]
id = "rx"                 # the receiver
part = "my-rx"
on = "front"
at_mm = [260, 0]
note = "rx is on top"

[[item]]
id = "hub"
part = "my-rx"
on = "front"
at_mm = [160, 0]
supports = ["rx", "front"]

[[lead]]
id = "L1"
from = "rx.out-1"
to = "hub.out-2"

[[lead]]
id = "L2"
from = "rx-joint"
to = "unknown"
may_be = ["rx.out-2", "hub.out-1"]

[[on_hand]]
id = "spare"
part = "my-rx"
instead_of = ["rx"]

[[accept]]
id = "close"
code = "fit.box-gap"
about = ["rx", "hub"]
by = "owner"
reason = "tried"

[[option]]
id = "aft"
replace = { item = ["rx"], with = ["rx-2"] }
remove = ["lead.L1"]

[option.set]
"item.hub.supports" = ["rx-2"]   # no rx here
"lead.L2.may_be" = ["rx-2.out-1"]
"state.light.without" = ["rx-2"]
"on_hand.spare.instead_of" = ["rx-2"]

[[option.add.item]]
id = "rx-2"
part = "my-rx"
at_mm = [300, 0, 0]

[[option]]
id = "high"

[option.set]
"item.rx.raise_mm" = 5    # on foam
"lead.L1.to" = "rx.out-3"
"""
PARTS = """\
[[part]]
id = "my-rx"
extends = "receiver-12-channel"

[[port]]
part = "my-rx"
id = "out"
count = 3
face = "front"

[[port]]
part = "other"
id = "out"
face = "back"

[[part]]
id = "other"
extends = "my-rx"
"""
MEASURED = """\
[[measurement]]
id = "m1"
address = "item.rx.mass_g"
value = 20
part = "my-rx"
"""
TEXTS = {"aeroplane.toml": MAIN, "parts/own.toml": PARTS, "measurements.toml": MEASURED}


def renamed(texts: dict[str, str], *words: str) -> dict[str, str]:
    """The texts after a rename of kind, old id, new id."""
    return {**texts, **apply_to_texts(texts, rename(parse(texts)[0], *words).changes)}


def test_an_item_is_renamed_wherever_it_is_named() -> None:
    """References, ends of leads, options and measurements follow; notes, joints and comments stay."""
    texts = renamed(TEXTS, "item", "rx", "receiver")
    expected = MAIN
    for old, new in (
        ('without = ["rx"]', 'without = ["receiver"]'),
        ('id = "rx"     ', 'id = "receiver"     '),
        ('supports = ["rx", "front"]', 'supports = ["receiver", "front"]'),
        ('from = "rx.out-1"', 'from = "receiver.out-1"'),
        ('["rx.out-2",', '["receiver.out-2",'),
        ('instead_of = ["rx"]', 'instead_of = ["receiver"]'),
        ('about = ["rx", "hub"]', 'about = ["receiver", "hub"]'),
        ('item = ["rx"]', 'item = ["receiver"]'),
        ('"item.rx.raise_mm"', '"item.receiver.raise_mm"'),
        ('= "rx.out-3"', '= "receiver.out-3"'),
    ):
        assert expected.count(old) == 1
        expected = expected.replace(old, new)
    assert texts["aeroplane.toml"] == f'{expected}\n[[alias]]\nid = "item.rx"\nnow = "receiver"\n'
    assert texts["measurements.toml"] == MEASURED.replace("item.rx.", "item.receiver.")
    assert texts["parts/own.toml"] == PARTS
    read_texts(texts)
    read_texts(texts, ["high"])


def test_a_row_of_an_option_is_renamed_in_it() -> None:
    """What an option brings is renamed in all that the option says."""
    texts = renamed(TEXTS, "item", "rx-2", "second")
    assert texts["aeroplane.toml"].startswith(MAIN.replace("rx-2", "second"))
    read_texts(texts)


def test_a_part_is_renamed_with_its_ports() -> None:
    """Ports, parts that extend it, items and the note of a measurement follow."""
    texts = renamed(TEXTS, "part", "my-rx", "receiver")
    assert texts["parts/own.toml"] == PARTS.replace("my-rx", "receiver")
    assert texts["measurements.toml"] == MEASURED.replace("my-rx", "receiver")
    assert "my-rx" not in texts["aeroplane.toml"].replace('id = "part.my-rx"', "")
    read_texts(texts)


def test_a_part_that_varies_the_catalogues_own_still_does() -> None:
    """A part that extends the catalogue's of the same id keeps that when it gets a name of its own."""
    texts = {
        "aeroplane.toml": 'format = 1\n[aeroplane]\nname = "x"\n',
        "parts/own.toml": '[[part]]\nid = "servo-mini-8v4"\nextends = "servo-mini-8v4"\n',
    }
    assert tomllib.loads(renamed(texts, "part", "servo-mini-8v4", "mine")["parts/own.toml"]) == {
        "part": [{"id": "mine", "extends": "servo-mini-8v4"}]
    }


def test_a_finding_is_about_the_item_not_its_part() -> None:
    """Where an item and a part have one id, an accepted finding follows the item alone."""
    texts = {**TEXTS, "aeroplane.toml": MAIN.replace('"hub"]\nby', '"my-rx"]\nby')}
    texts["aeroplane.toml"] += '\n[[mass]]\nid = "my-rx"\nmass_g = 5\nat_mm = [1, 2, 3]\n'
    assert 'about = ["rx", "my-rx"]' in renamed(texts, "part", "my-rx", "a")["aeroplane.toml"]
    assert 'about = ["rx", "a"]' in renamed(texts, "mass", "my-rx", "a")["aeroplane.toml"]


def test_aliases_follow_their_row() -> None:
    """Each former id leads to the present one; one that the row takes back is no alias any more."""
    twice = renamed(renamed(TEXTS, "item", "rx", "a"), "item", "a", "b")
    assert tomllib.loads(twice["aeroplane.toml"])["alias"] == [
        {"id": "item.rx", "now": "b"},
        {"id": "item.a", "now": "b"},
    ]
    back = renamed(twice, "item", "b", "rx")
    assert tomllib.loads(back["aeroplane.toml"])["alias"] == [
        {"id": "item.a", "now": "rx"},
        {"id": "item.b", "now": "rx"},
    ]


def test_the_places_are_those_that_change() -> None:
    """Every place is told with its line, and nothing else is."""
    told = {(one.file, one.line) for one in rename(parse(TEXTS)[0], "item", "rx", "a").places}
    new = renamed(TEXTS, "item", "rx", "a")
    pairs = ((name, zip(TEXTS[name].splitlines(), new[name].splitlines(), strict=False))
             for name in TEXTS)  # fmt: skip
    differing = {(name, number) for name, lines in pairs
                 for number, (old, now) in enumerate(lines, 1) if old != now}  # fmt: skip
    assert told == differing


def without_aliases(texts: dict[str, str]) -> dict[str, Any]:
    """The data of all files, except the aliases."""
    return {name: {table: rows for table, rows in tomllib.loads(text).items() if table != "alias"}
            for name, text in texts.items()}  # fmt: skip


def demo() -> dict[str, str]:
    """The files of the demo aeroplane after its first flights."""
    folder = files("hardstand") / "data" / "demo" / "s2"
    names = ("aeroplane.toml", "measurements.toml", "parts/own.toml")
    return {name: (folder / name).read_text("utf-8") for name in names}


DEMO = demo()


@pytest.mark.parametrize("kind", [one for one in RENAMED if parse(DEMO)[0].rows.get(one)])
def test_there_and_back(kind: str) -> None:
    """A row of every kind can be renamed and named back: all but the aliases is as it was."""
    old = parse(DEMO)[0].rows[kind][-1]["id"]
    there = renamed(DEMO, kind, old, "quite-another")
    assert f'"{kind}.{old}"' in there["aeroplane.toml"]
    assert without_aliases(there) != without_aliases(DEMO)
    back = renamed(there, kind, "quite-another", old)
    assert without_aliases(back) == without_aliases(DEMO)


@pytest.mark.parametrize(
    "words, says, hint",
    [
        (("item", "rx", "hub"), "already an item hub", ""),
        (("item", "rx", "rx-2"), "already an item rx-2", ""),
        (("item", "rx", "front"), "already a tray front", ""),
        (("item", "rx", "rx-joint"), "end of a lead", ""),
        (("item", "rx", "rx"), "already", ""),
        (("item", "rx", "my receiver"), "no id", "letters, figures"),
        (("item", "rx", "-x"), "no id", "letters, figures"),
        (("item", "rx", "x\n"), "no id", "letters, figures"),
        (("item", "rx", "a.b"), "no id", "letters, figures"),
        (("item", "rx", ""), "no id", "letters, figures"),
        (("item", "rx", "a" * 61), "61 letters", "60"),
        (("item", "hubb", "a"), "no item hubb", "Did you mean hub?"),
        (("itm", "rx", "a"), "no kind of row itm", "Did you mean item?"),
        (("cg_mark", "", "a"), "stands once", ""),
        (("limit", "fit.box-gap", "a"), "the program's", ""),
        (("port", "out", "a"), "its part's own", "leads"),
        (("part", "receiver-12-channel", "a"), "the catalogue's", "extends"),
        (("part", "my-rx", "receiver-12-channel"), "The catalogue has", ""),
    ],
)
def test_what_cannot_be_renamed(words: tuple[str, str, str], says: str, hint: str) -> None:
    """A row that is not there, and an id that is taken, malformed or not free, are refused in words."""
    with pytest.raises(RenameError, match=says) as refused:
        rename(parse(TEXTS)[0], *words)
    assert hint in refused.value.hint


def test_a_former_id_is_kept_for_its_row() -> None:
    """Another row cannot take a former id, and one who asks for it is told the present one."""
    texts = renamed(TEXTS, "item", "rx", "receiver")
    with pytest.raises(RenameError, match="was the id of the item receiver"):
        rename(parse(texts)[0], "item", "hub", "rx")
    with pytest.raises(RenameError) as refused:
        rename(parse(texts)[0], "item", "rx", "a")
    assert refused.value.hint == "It is called receiver now."
