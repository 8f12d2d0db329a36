from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from hardstand.cli.begin import demo_texts
from hardstand.comparison import Comparison, compare, named_columns
from hardstand.description.problems import UnreadableError
from hardstand.workspace import open_folder
from tests.small_aeroplane import TEXT, laid_out

WITH_LEADS = TEXT + """
[[item]]
id = "rx-2"
part = "receiver-12-channel"
on = "front"
at_mm = [180, 0]
[[lead]]
id = "a"
from = "rx.out-front-1"
to = "rx-2.out-back-1"
length_mm = 200
[[lead]]
id = "b"
from = "rx.out-front-2"
to = "somewhere"
[[option]]
id = "wire"
[[option.add.lead]]
id = "c"
from = "rx.out-front-3"
to = "rx-2.out-back-3"
length_mm = 150
[option.set]
"lead.a.to" = "rx-2.out-back-2"
[[option]]
id = "far"
[option.set]
"item.rx.at_mm" = [370, 0]
"lead.a.length_mm" = 100
[[option]]
id = "same"
[option.set]
"item.rx.note" = "x"
"""


def compared(folder: Path, text: str, *columns: tuple[str, ...]) -> Comparison:
    """A comparison of the small aeroplane."""
    return compare(open_folder(laid_out(folder, text)), columns)


def values(found: Comparison, line: str) -> list[float | None]:
    """The values of a line by its id."""
    (row,) = (one for one in found.lines if one.id == line)
    return [one.figure.value if one and one.figure else None for one in row.values]


def words(found: Comparison, column: int = 1) -> list[str]:
    """The differences of a column in words."""
    return [one.text for one in found.differences if one.column == column]


def test_columns_are_named_one_by_one_or_together() -> None:
    """Twice the same is one column."""
    assert named_columns(["a+b", "b", "a+b", "+"], ["a", "b"]) == [("a", "b"), ("b",)]


def test_mass_and_cg_differ_by_what_the_option_alters(tmp_path: Path) -> None:
    """The CG moves by the moment of the receiver's move over the mass."""
    found = compared(tmp_path / "jet", TEXT, ("aft",))
    mass, after = values(found, "balance.mass")
    assert mass == after
    assert mass is not None
    before, cg = values(found, "balance.cg")
    assert before is not None
    assert cg == pytest.approx(before + (mass - 1800.0) * 40.0 / mass)
    assert [one.name for one in found.columns] == ["as described", "aft"]
    assert any(text.startswith("CG ") and "further aft" in text for text in words(found))


def test_an_option_that_alters_nothing_compared_differs_in_nothing(tmp_path: Path) -> None:
    """Every line and every finding is the same."""
    found = compared(tmp_path / "jet", WITH_LEADS, ("same",))
    assert (found.differences, found.severities) == ((), {})
    assert all(len(set(values(found, one.id))) == 1 for one in found.lines)


def test_leads_are_counted_measured_and_made(tmp_path: Path) -> None:
    """New ones are made, those that only end elsewhere are plugged in there."""
    found = compared(tmp_path / "jet", WITH_LEADS, ("wire",))
    assert values(found, "aeroplane.leads") == [2, 3]
    assert values(found, "aeroplane.lead-given") == [200, 350]
    assert values(found, "aeroplane.leads-to-make") == [0, 1]
    # the middles of the receivers are 80 mm apart, each is 52 mm long, and the ports face one another
    assert values(found, "aeroplane.lead-along") == pytest.approx([28.0, 56.0])
    (line,) = (one for one in found.lines if one.id == "aeroplane.leads-to-make")
    assert line.values[1] is not None
    assert line.values[1].of == "c; 1 to plug in elsewhere"
    assert "1 lead to make (c; 1 to plug in elsewhere)" in words(found)
    assert "150 mm more lead as described (2 of 3 give a length)" in words(found)


def test_the_largest_difference_comes_first(tmp_path: Path) -> None:
    """By steps that are worth a line, in each column."""
    found = compared(tmp_path / "jet", WITH_LEADS, ("wire",), ("wire", "far"))
    for at in (1, 2):
        sizes = [one.size for one in found.differences if one.column == at]
        assert sizes == sorted(sizes, reverse=True)
    assert found.columns[2].name == "wire+far"


def test_options_that_touch_one_address_are_refused(tmp_path: Path) -> None:
    """With the problem that reading them together has."""
    with pytest.raises(UnreadableError) as told:
        compared(tmp_path / "jet", WITH_LEADS, ("aft", "far"))
    assert [one.what for one in told.value.problems] == ["the options aft and far both change item.rx.at_mm"]


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Comparison:
    """The demo aeroplane with one hub and with two."""
    folder = tmp_path_factory.mktemp("demo")
    for name, text in demo_texts("as-built").items():
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return compare(open_folder(folder), [("two-hubs",)])


def of(found: Comparison, start: str) -> Sequence[str]:
    """The differences that begin like this."""
    return [one for one in words(found) if one.startswith(start)]


def test_two_hubs_against_one(demo: Comparison) -> None:
    """The differences are those worked out by hand from the description.

    Masses 2 x 104 + 12 - 168 g at their stations; the five leads that the option adds, 620 + 700 + 150
    + 280 + 280 mm; the tailerons hang on a hub each.
    """
    assert values(demo, "aeroplane.items") == [36, 38]
    mass, after = values(demo, "balance.mass")
    before_mm, after_mm = values(demo, "balance.cg")
    assert mass is not None
    assert before_mm is not None
    assert after == pytest.approx(mass + 52.0)
    cg = 1045.0 + before_mm
    assert after_mm == pytest.approx((mass * cg + 40.0 * 598.0 + 12.0 * 740.0) / (mass + 52.0) - 1045.0, abs=0.02)
    assert of(demo, "2030 mm more lead as described")
    (boxes,) = of(demo, "no single box")
    assert "taileron left and right" in boxes
    assert "it was Power distribution" in boxes
    assert demo.columns[1].counts()["no-go"] == len(
        [one for one in demo.severities.values() if one == (None, "no-go")])  # fmt: skip


def test_only_one_of_two_was_weighed(demo: Comparison) -> None:
    """Then both are compared by their parts, and the weigh-in is named as set aside."""
    basis = {one.id: one.basis for one in demo.lines}
    assert basis["balance.mass"] == "the parts alone, for not all of them were weighed"
    aside = [one.id for one in demo.columns[1].set_aside if one.table == "weighing"]
    assert aside == ["weigh-in-1"]
    assert demo.columns[0].set_aside == ()
