"""What is taken where nothing else is known: age, cold, contacts, wire; each an input with a name.

Sources: common practice or values from memory, as each says; a measured value is always better.
"""

from __future__ import annotations

from hardstand.figures import Input
from hardstand.standards.contacts import CONTACTS

ASSUMED = "documented default"


def _default(name: str, value: float, unit: str, u: float) -> Input:
    return Input(f"power.default.{name}", value, unit, u, "assumed", "", ASSUMED)


# A pack at the end of its life, on a cold morning, when it should be charged again.
AGE = _default("age_factor", 1.5, "", 0.1)  # at retirement; common practice
COLD = _default("cold_degc", 5.0, "degc", 2.5)  # the coldest morning; common practice
NEW_DEGC, WORST_CHARGE, GOOD_CHARGE = 25.0, 0.30, 0.80  # common practice
CAPACITY_SHARE = _default("capacity_pct", 90.0, "pct", 2.5)  # of the label; value from memory
RESERVE_SHARE = 0.20  # never taken out of a pack; common practice
# Rest voltages of cells differ by 0.03 V from the curve of their kind; value from memory.
OPEN_V = _default("cell_open_v", 0.0, "v", 0.015)
# One factor on all wire and contacts: strands, warmth, wear; value from memory.
COPPER = _default("copper_factor", 1.0, "", 0.05)
PACK_SHARE = 0.05  # standard uncertainty of a pack's resistance when new; common practice
WIRE_DEGC = 20.0
RESET_V = _default("reset_v", 3.5, "v", 0.0)  # of receivers, gyros and servos; value from memory

# Where the description is silent; each use is told of.
WIRE_AREA_MM2 = 0.129  # gauge 26, the thinnest in use
WIRE_LENGTH_MM = 500.0
PACK_MOHM_MAH = 25_000.0  # resistance of a cell times capacity, new; value from memory
PATH_MOHM = 5.0  # a transistor's path or a switch; value from memory
DROPOUT_V = 0.2  # of a linear regulator; value from memory
DIODE_V = 0.02  # of a transistor driven as a diode; value from memory
TIE_OPENS_S = 0.010


def contact_mohm(connector: str, stated: float | None) -> float:
    """Loop resistance of one plug in its port: as stated, else its class's, else a three-pin plug's.

    >>> contact_mohm("2-pole, 60 A class", None), contact_mohm("", 3.0)
    (1.2, 3.0)

    Source: `standards.contacts`, values from memory.
    """
    if stated is not None:
        return stated
    return 2.0 * CONTACTS.get(connector, CONTACTS["3-pin 2.54 mm"]).resistance_mohm


# What a wire is chosen for.
INSIDE = _default("inside_degc", 45.0, "degc", 5.0)  # a closed fuselage in the sun; value from memory
STILL_AIR = _default("still_air_factor", 1.0, "", 0.10)  # heat given off; value from memory
LASTING_A_MM2 = 10.0  # of wire, as harness.wire-load has it; common practice
PACK_MM2 = 0.5  # at least on a pack without a fuse, as harness.fuse-missing has it; common practice
