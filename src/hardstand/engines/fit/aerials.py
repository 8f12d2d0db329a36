"""Node: aerials: apart, at right angles, and away from what disturbs them or blinds them."""

from __future__ import annotations

from itertools import combinations
from typing import Any

import numpy as np

from hardstand.description.items import Antenna
from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.high_current import lead_pieces
from hardstand.engines.fit.model import Aerials, Check, Gap
from hardstand.engines.fit.nearest import add_nearest
from hardstand.engines.fit.piece import Follow, Owner, Piece, Solids
from hardstand.engines.fit.shapes import capsule
from hardstand.engines.kept import Kept
from hardstand.figures import Input
from hardstand.standards import tolerances

ENGINES = ("turbine", "pump")
CONTROLLERS = ("turbine-controller",)
BLINDING = ("carbon", "metal")
Asked = tuple[str, list[Piece], list[Piece]]


def aerial_piece(row: Antenna, receiver: str) -> Piece:
    """An aerial as a straight line from root to tip, as well known as its tip."""
    tip, way = np.array(row.tip_mm), _unit(row)
    tol = tolerances.AERIAL.fixed if row.tip_tol_mm is None else row.tip_tol_mm
    address = f"antenna.{row.id}.tip_mm"
    default = f"class default: {tolerances.AERIAL.name}"
    u_from = default if row.tip_tol_mm is None else "tolerance in the file"
    still = np.zeros(3)
    follows = tuple(
        Follow(
            Input(f"{address}.{axis}", tip[k], "mm", tol / 2.0, "declared", address, u_from),
            np.eye(3)[k],
            still,
        )
        for k, axis in enumerate("xyz")
    )
    owner = Owner(row.id, f"{receiver}'s aerial {row.id}", "antenna", row.item)
    return Piece(capsule(tip - row.length_mm * way, tip, 0.0), "aerial", owner, row.id, follows)


def _unit(row: Antenna) -> Floats:
    way = np.array(row.direction, dtype=np.float64)
    return np.asarray(way / np.linalg.norm(way))


def aerials(slices: Any, earlier: Any, kept: Kept | None = None) -> Aerials:
    """Checks on every aerial, and receivers without. slices: items, antennas, leads."""
    solids: Solids = earlier["fit.solids"]
    names = {item.id: item.name for item in slices.items}
    rows = sorted(slices.antennas, key=lambda row: row.id)
    kept = kept or Kept()
    known = {row.id: (row, names[row.item]) for row in rows}
    pieces = kept.each("aerials", known, lambda one: aerial_piece(*one))
    found = Collected("aerials as straight lines, uncertainty to first order")
    for one, other in combinations(rows, 2):
        if one.item == other.item:
            _angle(found, one, other)
    asked = _apart(rows, pieces)
    engines, controllers = _items(solids, ENGINES), _items(solids, CONTROLLERS)
    blinding, wires = _blinding(solids), lead_pieces(slices.leads, solids.frames, kept)
    for row in rows:
        own = [pieces[row.id]]
        asked.append(("aerial-engine", own, engines))
        asked.append(("aerial-controller", own, controllers))
        asked.append(("aerial-carbon", own, _save(blinding, row.item)))
        asked.append(("aerial-lead", own, _save(wires, row.item)))
    add_nearest(found, asked, kept)
    gaps = [
        Gap("aerial-missing", (item.id,), _missing(item.name))
        for item in sorted(slices.items, key=lambda one: one.id)
        if item.kind == "receiver" and not any(row.item == item.id for row in rows)
    ]
    return Aerials(found.figures(), tuple(found.checks), tuple(gaps))


def _missing(name: str) -> str:
    return (
        f"No aerial of {name} is described, so nothing is said about its reception: give each of "
        "them an [[antenna]] row with tip, direction and length."
    )


def _angle(found: Collected, one: Antenna, other: Antenna) -> None:
    """The angle between two lines, 0 to 90 degrees; each may turn by its tip's u over its length."""
    cosine = abs(float(np.clip(_unit(one) @ _unit(other), -1.0, 1.0)))
    slopes = {}
    for row in (one, other):
        tol = tolerances.AERIAL.fixed if row.tip_tol_mm is None else row.tip_tol_mm
        address = f"antenna.{row.id}.direction"
        u_deg = float(np.degrees(np.arctan2(tol / 2.0, row.length_mm)))
        slopes[Input(address, 0.0, "deg", u_deg, "declared", address, "tip over length")] = 1.0
    check = Check(
        "aerial-angle",
        "fit.aerial-angle",
        (one.id, other.id),
        f"fit.aerial-angle@{one.id}+{other.id}",
    )
    found.add(
        check, float(np.degrees(np.arccos(cosine))), f"angle, {one.id} to {other.id}", slopes, "deg"
    )


def _apart(rows: list[Antenna], pieces: dict[str, Piece]) -> list[Asked]:
    """Each aerial against those of each receiver that comes later by id."""
    return [
        ("aerial-apart", [pieces[one.id]], [pieces[row.id] for row in rows if row.item == receiver])
        for one in rows
        for receiver in sorted({row.item for row in rows if row.item > one.item})
    ]


def _items(solids: Solids, kinds: tuple[str, ...]) -> list[Piece]:
    pieces = (solids.pieces[k] for k in solids.of_role("item"))
    return [piece for piece in pieces if piece.owner.kind in kinds]


def _blinding(solids: Solids) -> list[Piece]:
    """What blinds an aerial: metal items, and keep-outs of carbon or metal."""
    return [
        piece
        for piece in solids.pieces
        if (piece.role == "item" and piece.owner.metal)
        or (piece.role == "keep_out" and piece.owner.kind in BLINDING)
    ]


def _save(pieces: list[Piece], receiver: str) -> list[Piece]:
    """All but the receiver itself and its own leads, which begin beside its aerials."""
    return [
        piece
        for piece in pieces
        if receiver != piece.owner.id and receiver not in piece.owner.supports
    ]
