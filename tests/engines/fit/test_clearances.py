"""Clearances as a whole: what moves nothing, what order changes nothing, and how inputs count."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hardstand.asbuilt import AsBuilt
from hardstand.engines.fit.access import access
from hardstand.engines.fit.aerials import aerials
from hardstand.engines.fit.clearances import clearances
from hardstand.engines.fit.containment import containment
from hardstand.engines.fit.model import Clearances
from hardstand.engines.fit.solids import solids
from hardstand.figures import FigureSet
from tests.engines.fit.small_aeroplane import built, findings, item, part

PARTS = (
    part("box", size="[60, 30, 18]")
    + '[[port]]\npart = "box"\nid = "p"\nface = "front"\nkind = "signal"\n'
    + part("can", "pump", "[50, 26, 26]", 'shape = "cylinder"')
    + part("ring", "lamp", "[12, 60, 60]", 'shape = "ring"\ninside_mm = 44')
    + part("pack", "pack", "[70, 34, 20]", 'slides_out = "top"')
    + part("rx", "receiver", "[40, 20, 12]")
)


def crowd(dx: float = 0.0, dy: float = 0.0, dz: float = 0.0) -> str:
    """Things of every sort, all moved by the same."""

    def at(x: float, y: float, z: float | None = None) -> str:
        return f"[{x + dx}, {y + dy}]" if z is None else f"[{x + dx}, {y + dy}, {z + dz}]"

    corners = ", ".join(
        at(x, y) for x, y in ((-90, -60), (110, -60), (110, 60), (20, 60), (-90, 40))
    )
    profile = f"[[{-90 + dx}, {34 + dz}], [{20 + dx}, {24.5 + dz}], [{110 + dx}, {40 + dz}]]"
    hatch = ", ".join(at(x, y) for x, y in ((-80, -50), (80, -50), (80, 50), (-80, 50)))
    sections = "".join(
        f'[[section]]\nid = "s{k}"\nbay = "body"\nx_mm = {x + dx}\ntol_mm = 1\n'
        f"outline_mm = [[{dy - w}, {dz - w}], [{dy + w}, {dz - w}], [{dy + w}, {dz + w}], "
        f"[{dy - w}, {dz + w}]]\n"
        for k, (x, w) in enumerate(((-300, 90), (0, 130), (300, 110)))
    )
    return (
        '[[bay]]\nid = "body"\n'
        + sections
        + f'[[tray]]\nid = "tray"\noutline_mm = [{corners}]\ntop_z_mm = {dz}\n'
        + f'[[hole]]\nid = "slot"\ntray = "tray"\nfrom_mm = {at(60, -30)}\nto_mm = {at(60, 10)}\n'
        + "width_mm = 8\n"
        + f'[[keep_out]]\nid = "lid"\nkind = "tub"\nshape = "underside"\nprofile_mm = {profile}\n'
        + f"y_mm = [{-60 + dy}, {60 + dy}]\nremovable = true\n"
        + f'[[keep_out]]\nid = "rod"\nkind = "moving"\nshape = "cylinder"\nfrom_mm = {at(-50, -9, -30)}\n'
        + f"to_mm = {at(80, 20, -22)}\ndiameter_mm = 10\n"
        + f'[[hatch]]\nid = "top"\noutline_mm = [{hatch}]\n'
        + item("a", "box", at(10, -20), 'on = "tray"\nturn_deg = 90')
        + item("b", "can", at(-40, 15), 'on = "tray"')
        + item("c", "ring", at(150, 0, 20), "tilt_deg = [0, 12]")
        + item("d", "pack", at(70, 40, 12), 'through = "top"\nturn_deg = 90')
        + item("e", "rx", at(-30, -40), 'on = "tray"')
        + f'[[antenna]]\nid = "up"\nitem = "e"\ntip_mm = {at(-40, -44, 40)}\ndirection = [0, 0, 1]\n'
    )


def values(aeroplane: AsBuilt) -> dict[str, float]:
    """Every figure of the nodes of distance, by address."""
    found: dict[str, Any] = {"fit.solids": solids(aeroplane, {})}
    sets = [node(aeroplane, found).figures for node in (clearances, containment, access, aerials)]
    return {
        address: float(value)
        for figures in sets
        for address, value in zip(figures.addresses, figures.values, strict=True)
    }


def distances(aeroplane: AsBuilt) -> Clearances:
    """The clearances alone."""
    return clearances(aeroplane, {"fit.solids": solids(aeroplane, {})})


@settings(max_examples=15, deadline=None)
@given(st.tuples(*[st.floats(-1500.0, 1500.0)] * 3))
def test_moving_the_whole_changes_nothing(by: tuple[float, float, float]) -> None:
    """Every distance is the same wherever the datum is put."""
    here, there = values(built(crowd(), PARTS, "")), values(built(crowd(*by), PARTS, ""))
    assert len(here) > 20
    assert there == pytest.approx(here, abs=1e-6)


def test_order_of_rows_changes_nothing() -> None:
    """Items, keep-outs and trays in any order give the same figures to the bit."""
    one = built(crowd(), PARTS, "")
    other = replace(
        one, items=one.items[::-1], keep_outs=one.keep_outs[::-1], sections=one.sections[::-1]
    )
    assert values(one) == values(other)


def test_worst_comes_first() -> None:
    """Clearances are in the order of their spare beyond the limit."""
    found = distances(built(crowd(), PARTS, ""))
    assert (np.diff(found.margin_mm) >= 0.0).all()


@pytest.mark.parametrize(
    "address", ["item.a.at_mm.x", "item.a.at_mm.y", "item.d.at_mm.z", "item.c.at_mm.x"]
)
def test_slopes_of_places(address: str) -> None:
    """To first order every distance follows a place as its sensitivity says."""
    _, row, _, axis = address.split(".")
    index, step = "xyz".index(axis), 1e-4

    one = built(crowd(), PARTS, "")

    def at(sense: float) -> FigureSet:
        items = []
        for placed in one.items:
            middle = list(placed.centre_mm)
            middle[index] += sense * step if placed.id == row else 0.0
            items.append(replace(placed, centre_mm=(middle[0], middle[1], middle[2])))
        return distances(replace(one, items=tuple(items))).figures

    low, middle, high = at(-1.0), at(0.0), at(1.0)
    column = [one.address for one in middle.inputs].index(address)
    for k, name in enumerate(middle.addresses):
        rise = [found.values[found.addresses.index(name)] for found in (low, high)]
        slope = (rise[1] - rise[0]) / (2.0 * step)
        assert middle.sensitivity[k, column] == pytest.approx(slope, abs=2e-3), name


@pytest.mark.parametrize("row, axis", [("a", 0), ("a", 1), ("a", 2), ("b", 0), ("b", 1), ("d", 2)])
def test_slopes_of_sizes(row: str, axis: int) -> None:
    """To first order every distance follows a size as its sensitivity says, the tray's lift included."""
    step = 1e-4
    one = built(crowd(), PARTS, "")

    def at(sense: float) -> FigureSet:
        items = []
        for placed in one.items:
            size, middle = list(placed.size_mm), list(placed.centre_mm)
            if placed.id == row:
                round_ = placed.part.shape != "box" and axis > 0
                for k in (1, 2) if round_ else (axis,):
                    size[k] += sense * step
                if placed.on is not None and (axis == 2 or round_):
                    middle[2] += sense * step / 2.0
            items.append(
                replace(
                    placed,
                    size_mm=(size[0], size[1], size[2]),
                    centre_mm=(middle[0], middle[1], middle[2]),
                )
            )
        return distances(replace(one, items=tuple(items))).figures

    low, middle, high = at(-1.0), at(0.0), at(1.0)
    addresses = [found.address for found in middle.inputs]
    names = "yz" if row == "b" and axis > 0 else "xyz"[axis]
    columns = [addresses.index(f"item.{row}.size_mm.{name}") for name in names]
    for k, name in enumerate(middle.addresses):
        rise = [found.values[found.addresses.index(name)] for found in (low, high)]
        slope = (rise[1] - rise[0]) / (2.0 * step)
        assert middle.sensitivity[k, columns].sum() == pytest.approx(slope, abs=2e-3), name


SHELF = {
    "tray": '[[tray]]\nid = "shelf"\ntop_z_mm = 0\n'
    "outline_mm = [[-60, -60], [60, -60], [60, 60], [-60, 60]]\n",
    "keep_out": '[[keep_out]]\nid = "shelf"\nshape = "box"\nat_mm = [0, 0, -1]\n'
    "size_mm = [120, 120, 2]\n",
    "item": item("shelf", "plate", "[0, 0, -1]"),
}


@pytest.mark.parametrize("table", SHELF)
@pytest.mark.parametrize("more, wanted", [("", 1), ('supports = ["shelf"]', 0)])
def test_what_an_item_supports_it_may_touch(table: str, more: str, wanted: int) -> None:
    """A tray, a keep-out or an item that is named in `supports`, and only then."""
    parts = part("box") + part("plate", size="[120, 120, 2]")
    found = findings(built(SHELF[table] + item("a", "box", "[0, 0, 10]", more), parts))
    assert sum(one.severity == "no-go" and set(one.about) == {"a", "shelf"} for one in found) == wanted
