"""Which rule two pieces fall under, if any."""

from __future__ import annotations

from hardstand.engines.fit.piece import FIXED, Owner, Piece, Role

RANK: dict[Role, int] = {
    "item": 0,
    "sweep": 1,
    "aerial": 1,
    "lead": 1,
    "zone": 2,
    "hot": 3,
    "keep_out": 4,
    "tray": 5,
    "hole": 6,
}
# The limit that each rule of distance is judged by.
LIMIT_OF = {
    "box-gap": "fit.box-gap",
    "plug-room": "fit.plug-room",
    "structure-gap": "fit.structure-gap",
    "tub-gap": "fit.structure-gap",
    "moving-gap": "fit.moving-gap",
    "hot-gap": "fit.hot-gap",
    "fuel-gap": "fit.fuel-gap",
    "hole-gap": "fit.hole-gap",
}


def related(one: Owner, other: Owner) -> bool:
    """Whether two rows are one assembly: the same row, or one is mounted on the other."""
    return (
        (one.id == other.id and one.table == other.table)
        or other.id in one.supports
        or one.id in other.supports
    )


def rule_of(one: Piece, other: Piece) -> str | None:
    """The rule (slug of its code) for the distance between two pieces, None where there is none.

    >>> from hardstand.engines.fit.shapes import box
    >>> cube = box((0.0, 0.0, 0.0), (1.0, 1.0, 1.0))
    >>> pack = Piece(cube, "item", Owner("pack", "", "item", "pack"), "pack", ())
    >>> wheel = Piece(cube, "keep_out", Owner("wheel", "", "keep_out", "moving"), "wheel", ())
    >>> rule_of(wheel, pack), rule_of(pack, pack)
    ('moving-gap', None)
    """
    a, b = (one, other) if RANK[one.role] <= RANK[other.role] else (other, one)
    if a.role in FIXED or related(a.owner, b.owner):
        return None
    if b.role == "hole":
        return "hole-gap" if a.role == "item" and a.owner.on == b.owner.on else None
    if b.role == "tray":
        return None if a.owner.on == b.owner.id or a.role == "hot" else _solid(a)
    if b.role == "keep_out":
        return None if a.role == "hot" else _of_keep_out(a, b.owner.kind)
    if b.role == "hot":
        harmed = not a.owner.hot and not (a.role == "item" and a.owner.metal)
        return "hot-gap" if harmed else None
    return _of_items(a, b)


def _solid(piece: Piece) -> str:
    return "plug-room" if piece.role == "zone" else "structure-gap"


def _of_keep_out(a: Piece, kind: str) -> str:
    electric = a.electric if a.role == "zone" else a.owner.electric
    if kind == "moving":
        return "moving-gap"
    if kind == "hot" and not (a.role == "item" and (a.owner.metal or a.owner.hot)):
        return "hot-gap"
    if kind == "fuel" and electric:
        return "fuel-gap"
    if kind == "tub" and a.role == "item":
        return "tub-gap"
    return _solid(a)


def _of_items(a: Piece, b: Piece) -> str:
    """Two items, an item and a zone, or two zones."""
    for tank, other in ((a, b), (b, a)):
        electric = other.electric if other.role == "zone" else other.owner.electric
        if tank.role == "item" and tank.owner.fuel and electric:
            return "fuel-gap"
    return "plug-room" if "zone" in (a.role, b.role) else "box-gap"
