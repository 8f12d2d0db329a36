"""Which options alter what scales would show: a weigh-in holds only for the aeroplane it was of."""

from __future__ import annotations

from hardstand.changes import AddressError, AnyChange, Change, parse_address
from hardstand.description.option_changes import changes_of
from hardstand.description.raw import Raw

WITH_MASS = ("mass", "item", "tank", "leg")
WEIGHING_FIELDS = frozenset({
    "mass_g", "at_mm", "part", "extends", "on", "raise_mm", "turn_deg", "tilt_deg", "cg_offset_mm",
    "item", "capacity_ml", "unusable_ml", "inside_mm", "size_mm", "moving_g", "down_mm", "up_mm",
    "contact_mm", "top_z_mm", "density_kg_m3",
})  # fmt: skip


def altering(base: Raw) -> set[str]:
    """The options that alter the mass of anything aboard or its place.

    >>> lead = {"id": "lead", "set": {"lead.H01.length_mm": 300}}
    >>> aft = {"id": "aft", "set": {"item.hub.at_mm": [300, 0]}}
    >>> altering(Raw({}, {"option": [lead, aft]}))
    {'aft'}
    """
    return {row["id"] for row in base.rows.get("option", [])
            if isinstance(row.get("id"), str) and any(map(alters_weight, changes_of(row)))}


def alters_weight(change: AnyChange) -> bool:
    """Whether a change alters a mass or where it lies.

    >>> from hardstand.changes import RemoveRow
    >>> alters_weight(RemoveRow("item", "hub")), alters_weight(RemoveRow("lead", "H01"))
    (True, False)
    """
    if not isinstance(change, Change):
        return change.kind in WITH_MASS
    try:
        return parse_address(change.address).field in WEIGHING_FIELDS
    except AddressError:
        return False  # told of where it is laid
