"""Placement problems to measure on: a three-tray fuselage, and random aeroplanes."""

from __future__ import annotations

import numpy as np

from hardstand.engines.fit.layout.problem import (
    Balance,
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

FACES = ("front", "back", "left", "right")


def box(
    item_id: str,
    size_mm: tuple[int, int, int],
    mass_g: int,
    depths_mm: dict[str, int],
    places: tuple[Place, ...],
    turns: tuple[int, ...] = (0, 1, 2, 3),
) -> Item:
    """An item with a port in the middle of each face of `depths_mm`, and its plug room."""
    length, width, height = size_mm
    middles = {
        "front": (0.0, width / 2),
        "back": (float(length), width / 2),
        "left": (length / 2, 0.0),
        "right": (length / 2, float(width)),
    }
    ports = tuple(Port(face, (*middles[face], height / 2)) for face in depths_mm)
    rooms = tuple(PlugRoom(face, depth, height_mm=10) for face, depth in depths_mm.items())  # type: ignore[arg-type]
    return Item(item_id, size_mm, places, rooms, ports, turns, mass_g)


def three_trays(shared: bool = True) -> Problem:
    """Sixteen items of a jet on three trays, 33 leads: nose, main and upper tray.

    One point is a hundredth of the weight unit that the figures are printed in.
    """
    anywhere = (Place("nose"), Place("main"), Place("upper"))
    items = [
        box("receiver-pack-1", (110, 36, 28), 190, {"back": 25}, anywhere),
        box("receiver-pack-2", (110, 36, 28), 190, {"back": 25}, anywhere),
        box("engine-pack", (105, 45, 32), 320, {"back": 30}, anywhere),
        box("engine-control", (78, 52, 20), 110, {"back": 25, "front": 25}, anywhere),
        box("pump", (72, 36, 40), 150, {"back": 20, "front": 25}, anywhere),
        box("distribution", (118, 72, 22), 260, {"right": 22, "left": 22, "back": 25}, anywhere),
        box("receiver-1", (46, 30, 15), 25, {"back": 18}, anywhere),
        box("receiver-2", (46, 30, 15), 25, {"back": 18}, anywhere),
        box("receiver-3", (46, 30, 15), 25, {"back": 18}, anywhere),
        box("gyro", (45, 32, 16), 40, {"back": 20},
            tuple(Place(place.tray, (670, 890), (-12, 12)) for place in anywhere), (0,)),
        box("gear-control", (68, 42, 18), 60, {"back": 22, "front": 22}, anywhere),
        box("light-control", (60, 40, 16), 55, {"right": 20}, anywhere),
        box("valve", (52, 30, 24), 70, {"right": 25}, anywhere),
        box("telemetry", (40, 25, 12), 20, {"front": 18}, anywhere),
        box("smoke-pump", (76, 42, 42), 170, {"back": 20}, anywhere),
        box("hopper", (98, 78, 70), 200, {"back": 20, "front": 20}, anywhere),
    ]  # fmt: skip
    target = 560 * sum(item.mass_g for item in items)
    return Problem(
        _three_trays(), tuple(items), _leads(), balances=(Balance("x", target, 3),),
        plug_rooms_shared=shared,
    )  # fmt: skip


def _three_trays() -> tuple[Tray, ...]:
    """The trays; slanted sides stand as steps, as the solvers see them."""
    return (
        Tray("nose", ((150, -55), (210, -55), (210, -62), (270, -62), (270, -70), (330, -70),
             (330, -77), (390, -77), (390, 77), (330, 77), (330, 70), (270, 70), (270, 62),
             (210, 62), (210, 55), (150, 55)), 40, 60,
             (KeepOut("low", Rectangle(150, 230, -85, 85), 30),)),
        Tray("main", ((420, -80), (450, -80), (450, -87), (480, -87), (480, -95), (860, -95),
             (860, -60), (900, -60), (900, 60), (860, 60), (860, 95), (480, 95), (480, 87),
             (450, 87), (450, 80), (420, 80)), 20, 90,
             (KeepOut("well", Rectangle(600, 680, -25, 25)),
              KeepOut("low", Rectangle(790, 900, -95, 95), 35))),
        Tray("upper", ((500, -40), (590, -40), (590, -70), (760, -70), (760, 70), (590, 70),
             (590, 40), (500, 40)), 115, 50, (KeepOut("low", Rectangle(700, 760, -70, 70), 25),)),
    )  # fmt: skip


POINTS = {
    "turbine": (1100, 0, 60), "wing-left": (700, -110, 10), "wing-right": (700, 110, 10),
    "tail": (950, 0, 60), "nose-lamp": (120, 0, 30), "nose-gear": (300, 0, -20),
    "satellite": (600, 0, 150), "aerial": (200, 0, 60),
}  # fmt: skip

LEADS = """
receiver-pack-1.back distribution.back 3; receiver-pack-2.back distribution.back 3
distribution.right receiver-1.back 1; distribution.right receiver-2.back 1
distribution.left receiver-3.back 1; receiver-1.back gyro.back 1; distribution.left gyro.back 1
distribution.right gear-control.front 1; distribution.left light-control.right 1
gear-control.back valve.right 1; receiver-1.back telemetry.front 1
engine-pack.back engine-control.front 3; engine-control.back pump.front 2
engine-control.front receiver-1.back 1; hopper.front pump.back 2; hopper.back turbine 2
engine-control.back turbine 2; pump.back turbine 1; distribution.left wing-left 2
distribution.right wing-right 2; distribution.back tail 2; light-control.right wing-left 1
light-control.right wing-right 1; light-control.right nose-lamp 1; gear-control.back nose-gear 1
gear-control.back wing-left 1; gear-control.back wing-right 1; telemetry.front satellite 1
smoke-pump.back turbine 1; smoke-pump.back receiver-3.back 1; receiver-2.back aerial 1
valve.right wing-left 1; valve.right wing-right 1
"""


def _leads() -> tuple[Lead, ...]:
    found = []
    for n, text in enumerate(LEADS.replace("\n", ";").strip(";").split(";")):
        start, end, weight = text.split()
        item, _, port = end.partition(".")
        last = ItemPort(item, port) if port else Point(POINTS[end])
        found.append(Lead(f"L{n + 1:02d}", ItemPort(*start.split(".")), last, 100 * int(weight)))
    return tuple(found)


def random_aeroplane(seed: int, tightness: float) -> Problem:
    """Ten to fourteen items on two or three trays whose area they fill by `tightness`.

    Boxes and plug rooms together; the first tray tapers, one has a well, one a low end. Leads make a
    tree with a few more, and half of the items have one to a point outside.
    """
    rng = np.random.default_rng(seed)
    count, trays = int(rng.integers(10, 15)), int(rng.integers(2, 4))
    names = [f"tray-{k}" for k in range(trays)]
    places = tuple(Place(name) for name in names)
    items = []
    for k in range(count):
        size = (int(rng.integers(35, 120)), int(rng.integers(25, 75)), int(rng.integers(12, 45)))
        faces = rng.choice(4, size=int(rng.integers(1, 3)), replace=False)
        depths = {FACES[face]: int(rng.integers(15, 30)) for face in faces}
        items.append(box(f"item-{k}", size, int(rng.integers(20, 320)), depths, places))
    taken = sum(
        item.size_mm[0] * item.size_mm[1]
        + sum(
            room.depth_mm * item.size_mm[1 if room.face in ("front", "back") else 0]
            for room in item.plug_rooms
        )
        for item in items
    )
    shares = rng.dirichlet(np.full(trays, 8.0))
    found, x = [], 150
    for name, share in zip(names, shares, strict=True):
        half = int(rng.integers(70, 100))
        length = max(150, round(share * taken / tightness / (2 * half)))
        found.append(_random_tray(rng, name, x, length, half))
        x += length + 40 if rng.random() < 0.6 else 40
    return Problem(
        tuple(found), tuple(items), _random_leads(rng, items, x),
        balances=(Balance("x", sum(one.mass_g for one in items) * (150 + x) // 2, 3),),
        plug_rooms_shared=bool(rng.integers(0, 2)),
    )  # fmt: skip


def _random_tray(rng: np.random.Generator, name: str, x: int, length: int, half: int) -> Tray:
    taper, end = int(rng.integers(0, 25)), x + length
    outline = ((x, taper - half), (x + length // 3, -half), (end, -half), (end, half),
               (x + length // 3, half), (x, half - taper))  # fmt: skip
    middle = x + length // 2
    keep = KeepOut("well", Rectangle(middle - 25, middle + 25, -15, 15))
    low = KeepOut("low", Rectangle(end - 60, end, -half, half), 30)
    return Tray(name, outline, int(rng.integers(-40, 120)), 60, (keep, low))


def _random_leads(rng: np.random.Generator, items: list[Item], length: int) -> tuple[Lead, ...]:
    def end(k: int) -> ItemPort:
        ports = items[k].ports
        return ItemPort(items[k].id, ports[int(rng.integers(len(ports)))].id)

    pairs = [(k, int(rng.integers(k))) for k in range(1, len(items))]
    pairs += [
        (int(a), int(b))
        for a, b in (rng.choice(len(items), 2, replace=False) for _ in range(len(items) // 3))
    ]
    leads = [
        Lead(f"L{n}", end(a), end(b), 100 * int(rng.integers(1, 4)))
        for n, (a, b) in enumerate(pairs)
    ]
    for k in range(0, len(items), 2):
        at = (
            float(rng.integers(0, length + 300)),
            float(rng.integers(-120, 121)),
            float(rng.integers(0, 80)),
        )
        leads.append(Lead(f"P{k}", end(k), Point(at), 100))
    return tuple(leads)
