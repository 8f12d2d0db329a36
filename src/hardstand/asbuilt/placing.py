"""Items placed: the part resolved, overrides laid over it, the box at its place, ports in use."""

from __future__ import annotations

from collections.abc import Mapping

from hardstand.asbuilt.inputs import Maker
from hardstand.asbuilt.value import Inputs3, MassPoint, PlacedItem, PlacedPort, Triple
from hardstand.description.catalogue import Resolved
from hardstand.description.items import Item
from hardstand.description.places import Tray
from hardstand.description.same import Made
from hardstand.figures import Input, Kind
from hardstand.standards import tolerances


def sizes(item: Item, resolved: Resolved, make: Maker) -> Inputs3:
    """Length, width, height of an item's box: its own, else the part's, else typical of the class."""
    address = f"item.{item.id}.size_mm"
    if item.size_mm is not None:
        return make.point(address, item.size_mm, None, tolerances.BOX)
    part = resolved.part
    assert part.size_mm is not None  # a resolved part always has one
    generic = resolved.is_generic("size_mm")
    default = tolerances.CATALOGUE_BOX if generic else tolerances.BOX
    kind: Kind = "assumed" if generic else "declared"
    at = resolved.stands_at("size_mm")
    return make.point(address, part.size_mm, part.size_tol_mm, default, kind, stands_at=at)


def upright_extent_mm(size_mm: Triple, turn_deg: float, tilt_deg: tuple[float, float]) -> Triple:
    """Extent along x, y, z of a box turned about z after roll (about x) and pitch (about y).

    >>> upright_extent_mm((60.0, 40.0, 20.0), 90.0, (0.0, 0.0))
    (40.0, 60.0, 20.0)
    """
    from hardstand.standards.rotation import box_extent_mm

    x, y, z = box_extent_mm(size_mm, turn_deg, tilt_deg)
    return x, y, z


def centre_mm(item: Item, size: Triple, trays: Mapping[str, Tray]) -> Triple:
    """Middle of the box: as written off a tray, above the tray's top on one."""
    if item.on is None:
        return item.at_mm[0], item.at_mm[1], item.at_mm[2]
    height = upright_extent_mm(size, item.turn_deg, item.tilt_deg or (0.0, 0.0))[2]
    return item.at_mm[0], item.at_mm[1], trays[item.on].top_z_mm + item.raise_mm + height / 2.0


_PLACED = Made[PlacedItem](2048)
_MASSES = Made[Input](2048)
_POINTS = Made[MassPoint](2048)


def _as_described(item: Item, make: Maker) -> bool:
    """Whether no measurement touches an item, so that its rows alone tell what comes of it."""
    own = (f"item.{item.id}.", "part.")
    return not any(address.startswith(own) for address in make.measured)


def placed_item(
    item: Item,
    resolved: Resolved,
    trays: Mapping[str, Tray],
    used: frozenset[str] | None,
    make: Maker,
) -> PlacedItem:
    """One item placed. `used` holds its ports that leads name; None where no lead touches it.

    Of the same rows it is the same object as before.
    """
    if not _as_described(item, make):
        return _placed(item, resolved, trays, used, make)
    tray = trays[item.on] if item.on is not None else None
    return _PLACED.of(
        (item, resolved, tray), used, lambda: _placed(item, resolved, trays, used, make)
    )


def _placed(
    item: Item,
    resolved: Resolved,
    trays: Mapping[str, Tray],
    used: frozenset[str] | None,
    make: Maker,
) -> PlacedItem:
    size = sizes(item, resolved, make)
    size_mm = (size[0].value, size[1].value, size[2].value)
    centre = centre_mm(item, size_mm, trays)
    place = make.point(f"item.{item.id}.at_mm", centre, item.place_tol_mm, tolerances.PLACE)
    part = resolved.part
    ports = tuple(
        PlacedPort(name, port, used is None or name in used)
        for port in resolved.ports
        for name in port.names()
    )
    height_tol = 0.0
    if item.on is not None:
        tol = trays[item.on].tol_mm
        height_tol = tolerances.TRAY.fixed if tol is None else tol
    misalignment = None
    if item.misalignment_deg is not None:
        misalignment = make.point(
            f"item.{item.id}.misalignment_deg",
            item.misalignment_deg,
            item.misalignment_tol_deg,
            tolerances.ALIGNMENT,
            unit="deg",
        )
    return PlacedItem(
        item.id,
        item.name or part.name or item.id,
        part.kind,
        part,
        item.on,
        size_mm,
        centre,
        item.turn_deg,
        item.tilt_deg or (0.0, 0.0),
        place,
        size,
        height_tol / 2.0,
        ports,
        used is not None,
        item.move_x_mm,
        item.move_y_mm,
        misalignment,
        item.through,
        item.supports,
        item.removable,
        item.set_v,
    )


def mass_input(item: Item, resolved: Resolved, make: Maker) -> Input:
    """Mass of an item: its own figure, else the part's; typical of the class counts as assumed."""
    if not _as_described(item, make):
        return _mass(item, resolved, make)
    return _MASSES.of((item, resolved), None, lambda: _mass(item, resolved, make))


def _mass(item: Item, resolved: Resolved, make: Maker) -> Input:
    address = f"item.{item.id}.mass_g"
    if item.mass_g is not None:
        return make.scalar(address, item.mass_g, "g", item.mass_tol_g, tolerances.WEIGHED_MASS)
    part = resolved.part
    assert part.mass_g is not None  # a resolved part always has one
    generic = resolved.is_generic("mass_g")
    kind: Kind = "assumed" if generic else "declared"
    default = tolerances.CATALOGUE_MASS if generic else tolerances.WEIGHED_MASS
    tol = item.mass_tol_g if item.mass_tol_g is not None else part.mass_tol_g
    return make.scalar(address, part.mass_g, "g", tol, default, kind, resolved.stands_at("mass_g"))


def mass_point(item: Item, placed: PlacedItem, mass: Input, make: Maker) -> MassPoint:
    """The item as a mass: at the middle of its box plus the offset of its own mass centre.

    Its place as a mass is an input of its own (`mass_centre`), beside that of the box: where its box
    stands may be measured to a hair, and where in the box its mass centre is that does not tell, so the
    class default stays unless `station_tol_mm` is given.
    """
    if not _as_described(item, make):
        return _point(item, placed, mass, make)
    return _POINTS.of((item, placed, mass), None, lambda: _point(item, placed, mass, make))


def _point(item: Item, placed: PlacedItem, mass: Input, make: Maker) -> MassPoint:
    offset = item.cg_offset_mm if item.cg_offset_mm is not None else placed.part.cg_offset_mm
    from hardstand.standards.rotation import turned

    dx, dy, dz = turned(offset, placed.turn_deg, placed.tilt_deg)
    x, y, z = placed.centre_mm
    at = make.point(
        mass_centre(item.id),
        (x + dx, y + dy, z + dz),
        item.station_tol_mm,
        tolerances.MASS_STATION,
        stands_at=f"item.{item.id}.at_mm",
        takes_tol=False,
    )
    extent = upright_extent_mm(placed.size_mm, placed.turn_deg, placed.tilt_deg)
    return MassPoint(
        item.id,
        "item",
        placed.name,
        mass,
        at,
        box_inertia_kgm2(mass.value, extent),
        item.removable,
        item.on or placed.kind,
    )


def mass_centre(item_id: str) -> str:
    """The address of an item's mass centre as an input: it follows the place that is written.

    Where the box stands and where in it the mass lies are known differently well, and are two inputs.

    >>> mass_centre("rx")
    'item.rx.mass_centre_mm'
    """
    return f"item.{item_id}.mass_centre_mm"


def box_inertia_kgm2(mass_g: float, size_mm: Triple) -> Triple:
    """Ixx, Iyy, Izz of a solid box about its middle, kg m2, from mass in g and sides in mm.

    Source: closed form, m (b2 + c2) / 12.

    >>> [round(one, 6) for one in box_inertia_kgm2(1200.0, (100.0, 200.0, 300.0))]
    [0.013, 0.01, 0.005]
    """
    a2, b2, c2 = ((side / 1000.0) ** 2 for side in size_mm)
    twelfth = mass_g / 1000.0 / 12.0
    return twelfth * (b2 + c2), twelfth * (a2 + c2), twelfth * (a2 + b2)
