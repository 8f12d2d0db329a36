"""The demo aeroplane's nose and main tray as a placement problem."""

from __future__ import annotations

import math
from typing import Any

from hardstand.asbuilt import build
from hardstand.cli.begin import demo_texts
from hardstand.description.read import read_texts
from hardstand.engines.fit.layout.problem import (
    Balance,
    Face,
    Item,
    ItemPort,
    KeepOut,
    Lead,
    Place,
    PlugRoom,
    Point,
    Port,
    Problem,
    Rectangle,
    Tray,
)
from hardstand.engines.fit.plug_zones import stretches

TRAYS = ("nose-tray", "main-tray")
GAP_MM = 2
STRUCTURE_MM = 3.0


def demo_problem() -> Problem:
    """All items on the two trays free, packs on the nose tray, the rest on either.

    Keep-outs are rectangles around what stands there, 3 mm larger, cut where the height changes.
    Leads to what is elsewhere end in its middle. The CG target is the present one.
    """
    aeroplane: Any = build(read_texts(demo_texts("as-built"), ()).description)
    trays = tuple(_tray(aeroplane, tray) for tray in aeroplane.trays if tray.id in TRAYS)
    aboard = {one.id: one for one in aeroplane.items if one.on in TRAYS}
    masses = {one.id: float(one.mass.value) for one in aeroplane.masses if hasattr(one, "mass")}
    items = tuple(_item(one, round(masses.get(one.id, 50.0))) for one in aboard.values())
    target = sum(item.mass_g * round(aboard[item.id].centre_mm[0]) for item in items)
    return Problem(
        trays, items, tuple(_leads(aeroplane, aboard)), balances=(Balance("x", target, 3),),
        gap_mm=GAP_MM,
    )  # fmt: skip


def _tray(aeroplane: Any, tray: Any) -> Tray:
    rooms = []
    for keep_out in aeroplane.keep_outs:
        for k, (x0, x1, y0, y1, z0, z1) in enumerate(_boxes(keep_out)):
            low = math.floor(z0 - STRUCTURE_MM - tray.top_z_mm)
            high = math.ceil(z1 + STRUCTURE_MM - tray.top_z_mm)
            if high > 0 and low < 80:
                room = Rectangle(
                    math.floor(x0 - STRUCTURE_MM), math.ceil(x1 + STRUCTURE_MM),
                    math.floor(y0 - STRUCTURE_MM), math.ceil(y1 + STRUCTURE_MM),
                )  # fmt: skip
                rooms.append(KeepOut(f"{keep_out.id}-{k}", room, max(0, low), high))
    height = None if tray.height_mm is None else math.floor(tray.height_mm)
    return Tray(tray.id, tuple(tray.outline_mm), tray.top_z_mm, height, tuple(rooms))


def _boxes(keep_out: Any) -> list[tuple[float, float, float, float, float, float]]:
    """A keep-out as boxes along the axes that hold it."""
    if keep_out.shape == "prism":
        xs, ys = zip(*keep_out.outline_mm, strict=True)
        return [(min(xs), max(xs), min(ys), max(ys), keep_out.bottom_mm, keep_out.top_mm)]
    if keep_out.shape == "underside":
        low, high = keep_out.y_mm
        return [
            (a[0], b[0], low, high, min(a[1], b[1]), 10_000.0)
            for a, b in zip(keep_out.profile_mm, keep_out.profile_mm[1:], strict=False)
        ]
    if keep_out.shape == "box":
        (x, y, z), (a, b, c) = keep_out.at_mm, keep_out.size_mm
        return [(x - a / 2, x + a / 2, y - b / 2, y + b / 2, z - c / 2, z + c / 2)]
    half = keep_out.diameter_mm / 2.0
    spans = [
        (min(a, b) - half, max(a, b) + half)
        for a, b in zip(keep_out.from_mm, keep_out.to_mm, strict=True)
    ]
    return [(*spans[0], *spans[1], *spans[2])]


def _item(placed: Any, mass_g: int) -> Item:
    length, width, height = (math.ceil(value) for value in placed.size_mm)
    rooms, ports = [], []
    for one in stretches(placed):
        if one.face == "bottom":
            continue
        face: Face = one.face
        rooms.append(
            PlugRoom(
                face, math.ceil(one.depth_mm),
                None if one.width_mm is None else math.ceil(one.width_mm),
                math.floor(one.base_mm), math.ceil(one.height_mm),
            )
        )  # fmt: skip
        ports.append(Port(face, _middle(face, length, width, height)))
    on = ("nose-tray",) if placed.kind == "pack" else TRAYS
    places = tuple(Place(tray) for tray in on)
    unlike = {port.id: port for port in ports}
    return Item(
        placed.id, (length, width, height), places, tuple(rooms), tuple(unlike.values()),
        mass_g=mass_g, kind=placed.kind,
    )  # fmt: skip


def _middle(face: Face, length: int, width: int, height: int) -> tuple[float, float, float]:
    middles = {
        "front": (0.0, width / 2, 5.0),
        "back": (float(length), width / 2, 5.0),
        "left": (length / 2, 0.0, 5.0),
        "right": (length / 2, float(width), 5.0),
        "top": (length / 2, width / 2, float(height)),
    }
    return middles[face]


def _leads(aeroplane: Any, aboard: dict[str, Any]) -> list[Lead]:
    """Leads with at least one end on the trays; thick ones weigh more."""
    middles = {
        one.id: (float(one.centre_mm[0]), float(one.centre_mm[1]), float(one.centre_mm[2]))
        for one in aeroplane.items
    }
    found = []
    for lead in aeroplane.leads:
        ends = [lead.from_.split(".")[0], lead.to.split(".")[0]]
        if ends[1] in aboard and ends[0] not in aboard:
            ends.reverse()
        if ends[0] not in aboard or ends[1] not in middles:
            continue
        start = _port(aboard[ends[0]])
        end = _port(aboard[ends[1]]) if ends[1] in aboard else Point(middles[ends[1]])
        weight = 300 if lead.awg is not None and lead.awg <= 16 else 100
        found.append(Lead(lead.id, start, end, weight))
    return found


def _port(placed: Any) -> ItemPort:
    faces = [one.face for one in stretches(placed) if one.face != "bottom"]
    return ItemPort(placed.id, faces[0] if faces else "")
