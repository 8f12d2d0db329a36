"""Whether leads go through the openings that they are routed through."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.fit.model import PassThroughs
from hardstand.engines.fit.pass_through import bundle_diameter_mm, needed_diameter_mm
from hardstand.standards.wire import outside_diameter_mm
from tests.engines.fit.small_aeroplane import built, findings, item, part, results

TRAY = """
[[tray]]
id = "tray"
outline_mm = [[0, -50], [100, -50], [100, 50], [0, 50]]
top_z_mm = 0
"""
BOX = part("box") + '[[port]]\npart = "box"\nid = "out"\ncount = 40\nface = "top"\npoles = 3\n'


def leads(count: int, more: str = "awg = 22") -> str:
    """Leads from one box to another, all through one opening."""
    return "".join(
        f'[[lead]]\nid = "L{k}"\nfrom = "a.out-{k}"\nto = "b.out-{k}"\nvia = ["way"]\n{more}\n'
        for k in range(1, count + 1)
    )


def routed(count: int, hole: str, more: str = "awg = 22") -> PassThroughs:
    """The result for so many leads through an opening."""
    body = TRAY + f'[[hole]]\nid = "way"\ntray = "tray"\n{hole}\n'
    body += item("a", "box", "[500, 0, 0]") + item("b", "box", "[600, 0, 0]") + leads(count, more)
    found = results(built(body, BOX))["fit.pass-throughs"]
    assert isinstance(found, PassThroughs)
    return found


def test_an_opening_too_narrow_is_said() -> None:
    """Thirty leads of three wires do not go through 14 mm; four do, and nothing is said."""
    body = TRAY + '[[hole]]\nid = "way"\ntray = "tray"\nat_mm = [50, 0]\ndiameter_mm = 14\n'
    body += item("a", "box", "[500, 0, 0]") + item("b", "box", "[600, 0, 0]")
    said = {one.code: one for one in findings(built(body + leads(30), BOX))}["fit.pass-through"]
    assert (said.severity, said.about[:2]) == ("caution", ("way", "L1"))
    assert "The opening way is 10.7" in said.text
    assert "too narrow for its 30 leads at station 50 mm (limit 0 mm)" in said.text
    quiet = findings(built(body + leads(4), BOX))
    assert not [one for one in quiet if one.code == "fit.pass-through"]


def test_what_is_needed_is_the_opening_of_which_the_wires_fill_forty_per_cent() -> None:
    """Ten leads of three wires in a round opening and in a slot, by hand."""
    needed = (30 * outside_diameter_mm(22) ** 2 / 0.4) ** 0.5
    round_one = routed(10, "at_mm = [50, 0]\ndiameter_mm = 14")
    assert round_one.figures.values[0] == pytest.approx(14 - needed)
    slot = routed(10, "from_mm = [50, -10]\nto_mm = [50, 10]\nwidth_mm = 8")
    wide = (4 / 3.14159 * (20 * 8 + 3.14159 * 16)) ** 0.5
    assert slot.figures.values[0] == pytest.approx(wide - needed, abs=0.03)
    assert round_one.rows[0].wires == 30
    assert round_one.rows[0].assumed == ()


def test_what_is_not_described_is_taken_as_a_servo_lead_and_named() -> None:
    """Without a gauge it is 22, and the lead is listed as assumed."""
    plain, known = routed(2, "at_mm = [50, 0]\ndiameter_mm = 9", ""), routed(2, "at_mm = [50, 0]\ndiameter_mm = 9")
    assert plain.rows[0].bundle_mm == known.rows[0].bundle_mm
    assert plain.rows[0].assumed == ("L1", "L2")


@pytest.mark.parametrize("shape", ["at_mm = [50, 0]\ndiameter_mm = {}",
                                   "from_mm = [50, -10]\nto_mm = [50, 10]\nwidth_mm = {}"])  # fmt: skip
def test_a_wider_opening_has_more_to_spare_as_its_slope_says(shape: str) -> None:
    """The sensitivity to the opening's width is that of the figure itself."""
    here, wider = (routed(5, shape.format(wide)) for wide in (12, 12.01))
    column = next(k for k, one in enumerate(here.figures.inputs) if one.address.startswith("hole."))
    step = (wider.figures.values[0] - here.figures.values[0]) / 0.01
    slot = "width_mm" in shape  # its round ends are polygons
    assert here.figures.sensitivity[0, column] == pytest.approx(step, rel=5e-3 if slot else 1e-6)


@given(st.lists(st.floats(0.5, 6.0), min_size=1, max_size=40), st.floats(10.0, 64.0))
def test_an_opening_filled_as_allowed_lets_its_bundle_through(wires: list[float], fill: float) -> None:
    """What is needed at 64 % or less is never under a loosely tied bundle of more than two."""
    needed, bundle = needed_diameter_mm(wires, fill), bundle_diameter_mm(wires)
    assert needed >= bundle * 0.999 or bundle == pytest.approx(sum(sorted(wires)[-2:]))


def test_a_fill_of_nothing_is_refused() -> None:
    """No opening is large enough for it."""
    with pytest.raises(ValueError, match="no opening"):
        needed_diameter_mm([1.0], 0.0)
