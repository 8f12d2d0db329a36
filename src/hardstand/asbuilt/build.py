"""Lay description, chosen options and measurements over one another into one `AsBuilt`."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from hardstand.asbuilt.bays import bay_section
from hardstand.asbuilt.inputs import Maker
from hardstand.asbuilt.measurements import lay_measurements
from hardstand.asbuilt.placing import (
    box_inertia_kgm2,
    mass_centre,
    mass_input,
    mass_point,
    placed_item,
)
from hardstand.asbuilt.value import (
    AsBuilt,
    MassPoint,
    PlacedItem,
    PlacedLeg,
    PlacedTank,
    ScaleReading,
    WeighIn,
)
from hardstand.description.aeroplane import CgMark, Ground, MassRow
from hardstand.description.catalogue import Resolved, resolved_parts
from hardstand.description.fuel import Fuel, Leg, Tank
from hardstand.description.items import Item, Weighing
from hardstand.description.model import Description
from hardstand.description.set_aside import SetAside
from hardstand.figures import Input
from hardstand.findings import Limit
from hardstand.standards import limits, tolerances

POINT_TABLE = "mass"


def build(description: Description, set_aside: tuple[SetAside, ...] = ()) -> AsBuilt:
    """The as-built aeroplane of a description that was read with its options laid over.

    `set_aside` are the rows that reading has left out, for they do not apply with these options.
    Assumes a description that passed reading; every class default used is named in its input.
    """
    parts = resolved_parts(description)
    description, measured, stale = lay_measurements(description, parts)
    if any(address.startswith("part.") for address in measured):
        parts = resolved_parts(description)
    make = Maker(measured)
    items = _items(description, parts, make)
    mark = description.cg_mark
    ground, fuel = description.ground, description.fuel
    return AsBuilt(
        aeroplane=description.aeroplane,
        cg_mark=_cg_mark(mark, make) if mark else None,
        cg_mark_name=mark.name if mark else "",
        stability=description.stability,
        tail_strike=_tail_strike(ground, make) if ground else None,
        fuel=fuel,
        fuel_density=_fuel_density(fuel, make) if fuel else None,
        panels=description.panel,
        masses=(
            *(_airframe(row, make) for row in description.mass),
            *_item_masses(description, parts, items, make),
        ),
        items=items,
        trays=description.tray,
        holes=description.hole,
        keep_outs=description.keep_out,
        hatches=description.hatch,
        sections=tuple(bay_section(one) for one in description.section),
        antennas=description.antenna,
        leads=description.lead,
        on_hand=description.on_hand,
        on_hand_parts={one.part: parts[one.part].part for one in description.on_hand},
        ballast_places=description.ballast_place,
        tanks=tuple(_tank(row, description.item, items, make) for row in description.tank),
        legs=tuple(_leg(row, make) for row in description.leg),
        states=description.state,
        weighings=tuple(_weigh_in(row, description, make) for row in description.weighing),
        stale=stale,
        limits=_limits(description),
        accepts=description.accept,
        joints=description.joint,
        loads=description.load,
        channels=description.channel,
        phases=description.phase,
        duties=description.duty,
        set_aside=set_aside,
    )


def _cg_mark(mark: CgMark, make: Maker) -> tuple[Input, Input, Input]:
    return make.point("cg_mark.at_mm", mark.at_mm, mark.at_tol_mm, tolerances.CG_MARK)


def _tail_strike(ground: Ground, make: Maker) -> tuple[Input, Input, Input]:
    tol = ground.tail_strike_tol_mm
    return make.point("ground.tail_strike_mm", ground.tail_strike_mm, tol, tolerances.CONTACT)


def _fuel_density(fuel: Fuel, make: Maker) -> Input:
    address, tol = "fuel.density_kg_m3", fuel.density_tol_kg_m3
    return make.scalar(address, fuel.density_kg_m3, "kg_m3", tol, tolerances.FUEL_DENSITY)


def _items(
    description: Description, parts: Mapping[str, Resolved], make: Maker
) -> tuple[PlacedItem, ...]:
    trays = {tray.id: tray for tray in description.tray}
    used: dict[str, set[str]] = {}
    for lead in description.lead:
        for end in (lead.from_, lead.to, *lead.may_be):
            item, point, port = end.partition(".")
            if not point:
                continue  # a joint, or something that is no item
            used.setdefault(item, set()).add(port)
    return tuple(
        placed_item(
            row, parts[row.part], trays, frozenset(used[row.id]) if row.id in used else None, make
        )
        for row in description.item
    )


def _item_masses(
    description: Description,
    parts: Mapping[str, Resolved],
    items: tuple[PlacedItem, ...],
    make: Maker,
) -> list[MassPoint]:
    return [
        mass_point(row, placed, mass_input(row, parts[row.part], make), make)
        for row, placed in zip(description.item, items, strict=True)
    ]


def _airframe(row: MassRow, make: Maker) -> MassPoint:
    address = f"mass.{row.id}"
    own = box_inertia_kgm2(row.mass_g, row.size_mm) if row.size_mm else (0.0, 0.0, 0.0)
    given = (row.ixx_kgm2, row.iyy_kgm2, row.izz_kgm2)
    own_kgm2 = tuple(
        one if one is not None else default for one, default in zip(given, own, strict=True)
    )
    return MassPoint(
        row.id,
        POINT_TABLE,
        row.name or row.id,
        make.scalar(f"{address}.mass_g", row.mass_g, "g", row.mass_tol_g, tolerances.WEIGHED_MASS),
        make.point(f"{address}.at_mm", row.at_mm, row.at_tol_mm, tolerances.MASS_STATION),
        (own_kgm2[0], own_kgm2[1], own_kgm2[2]),
        row.removable,
        row.zone or "airframe",
    )


def _tank(
    row: Tank, rows: tuple[Item, ...], items: tuple[PlacedItem, ...], make: Maker
) -> PlacedTank:
    given, item = next(
        pair for pair in zip(rows, items, strict=True) if pair[1].id == row.item
    )
    cylinder = item.part.shape != "box"
    inside, shrunk = row.inside_mm, row.inside_mm is None
    if inside is None:
        length, width, height = item.size_mm
        volume_ml = length * width * height / 1000.0 * (math.pi / 4.0 if cylinder else 1.0)
        scale = min(1.0, (row.capacity_ml / volume_ml) ** (1.0 / 3.0))
        inside = (length * scale, width * scale, height * scale)
    return PlacedTank(
        row.id,
        row.item,
        cylinder,
        inside,
        make.point(
            mass_centre(row.item),
            item.centre_mm,
            given.station_tol_mm,
            tolerances.MASS_STATION,
            stands_at=f"item.{row.item}.at_mm",
            takes_tol=False,
        ),
        item.turn_deg,
        make.scalar(
            f"tank.{row.id}.capacity_ml", row.capacity_ml, "ml", None, tolerances.FUEL_VOLUME
        ),
        row.unusable_ml,
        row.order,
        row.header,
        shrunk,
    )


def _leg(row: Leg, make: Maker) -> PlacedLeg:
    address = f"leg.{row.id}"
    return PlacedLeg(
        row.id,
        row,
        make.point(f"{address}.contact_mm", row.contact_mm, row.contact_tol_mm, tolerances.CONTACT),
        make.scalar(
            f"{address}.moving_g", row.moving_g, "g", row.moving_tol_g, tolerances.MOVING_MASS
        ),
    )


def _weigh_in(row: Weighing, description: Description, make: Maker) -> WeighIn:
    legs = {leg.id: leg for leg in description.leg}
    readings = []
    for one in description.reading:
        if one.weighing != row.id:
            continue
        place = one.at_mm if one.at_mm is not None else legs[str(one.under)].contact_mm
        address = f"leg.{one.under}.contact_mm" if one.under else f"reading.{one.id}.at_mm"
        at = make.point(address, place, row.station_tol_mm, tolerances.CONTACT, "measured")
        reading = make.scalar(
            f"reading.{one.id}.reading_g",
            one.reading_g,
            "g",
            one.reading_tol_g,
            tolerances.SCALE,
            "measured",
        )
        readings.append(ScaleReading(one.id, at, reading, one.resolution_g or 0.0))
    pitch = make.scalar(
        f"weighing.{row.id}.pitch_deg",
        row.pitch_deg,
        "deg",
        row.pitch_tol_deg,
        tolerances.LEVEL,
        "measured",
    )
    return WeighIn(row.id, row, pitch, tuple(readings))


def _limits(description: Description) -> dict[str, Limit]:
    found = dict(limits.BY_ID)
    for row in description.limit:
        if row.id in found:
            found[row.id] = replace(
                found[row.id],
                low=found[row.id].low if row.low is None else row.low,
                high=found[row.id].high if row.high is None else row.high,
                by_builder=True,
                reason=row.reason,
                source=f"set by the builder: {row.reason}",
            )
    return found
