"""What lies inside items: packs, and the ways of power from what they take to what they give."""

from __future__ import annotations

from hardstand.engines.harness.model import Box, Link, Netlist
from hardstand.engines.power.defaults import (
    DIODE_V,
    DROPOUT_V,
    PACK_MOHM_MAH,
    PATH_MOHM,
    TIE_OPENS_S,
)
from hardstand.engines.power.network.elements import (
    GROUND,
    Element,
    IdealDiode,
    Limiter,
    Pack,
    Regulator,
    Resistor,
    Switch,
)
from hardstand.standards.cells import CHARGE, CHARGE_FACTORS, CHEMISTRIES

JOINT_MOHM = 1.0  # a rail of copper inside a box; value from memory


def pack_of(box: Box) -> Pack | None:
    """A pack as it is when new and warm; None where chemistry, cells or capacity are not known."""
    part = box.part
    if part.chemistry is None or not part.cells or part.capacity_mah is None:
        return None
    usual = PACK_MOHM_MAH / part.capacity_mah * part.cells
    return Pack(
        id=box.id, start=GROUND, end=f"{box.id}.cells", cells=part.cells,
        capacity_mah=part.capacity_mah, resistance_mohm=part.resistance_mohm or usual,
        curve_charge=CHARGE, curve_v=CHEMISTRIES[part.chemistry].open_v,
        resistance_factors=CHARGE_FACTORS,
    )  # fmt: skip


def way_of(net: Netlist, link: Link) -> tuple[Element, ...]:
    """The elements of one way inside an item; several where a path lies before its regulator."""
    box, name = net.boxes[link.item], path_name(link)
    start, end = link.source, link.target
    path = box.part.resistance_mohm
    if link.how == "tie":
        limit = box.part.rated_a or float("inf")
        opens = TIE_OPENS_S if box.part.opens_s is None else box.part.opens_s
        return (Limiter(id=name, start=start, end=end, resistance_mohm=path or PATH_MOHM,
                        limit_a=limit, opens_after_s=opens),)  # fmt: skip
    if box.set_v is not None:
        middle = f"{name} path"
        drop = DROPOUT_V if box.part.drop_v is None else box.part.drop_v
        return (
            Resistor(id=middle, start=link.source, end=middle, resistance_mohm=path or PATH_MOHM),
            Regulator(id=name, start=middle, end=link.target, set_v=box.set_v, dropout_v=drop,
                      resistance_mohm=1.0),
        )  # fmt: skip
    if box.kind == "switch":
        return (Switch(id=name, start=start, end=end, resistance_mohm=path or PATH_MOHM),)
    if link.how == "diode" or box.part.drop_v:
        drop = DIODE_V if box.part.drop_v is None else box.part.drop_v
        return (IdealDiode(id=name, start=start, end=end, resistance_mohm=path or PATH_MOHM,
                           drop_v=drop),)  # fmt: skip
    return (Resistor(id=name, start=start, end=end, resistance_mohm=path or JOINT_MOHM),)


def path_name(link: Link) -> str:
    """What the way of a link is called: `hub.in-pack>rail`.

    >>> path_name(Link("hub", "hub.in-pack", "hub.rail", "diode"))
    'hub.in-pack>rail'
    """
    return f"{link.source}>{link.target.partition('.')[2]}"
