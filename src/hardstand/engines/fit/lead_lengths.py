"""How long leads are while no routes are described: as given, and along the axes from port to port."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from hardstand.description.items import Lead
from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.engines.fit.plug_zones import port_point_mm


@dataclass(frozen=True, slots=True)
class LeadLengths:
    """Lengths of the leads of one aeroplane, mm: `given` by the description, `along` the axes.

    Each by the lead's id; a lead stands only where its length is known. `straight` is the distance
    of its ports, which it can never be shorter than.
    """

    given: Mapping[str, float]
    along: Mapping[str, float]
    straight: Mapping[str, float]


def lead_lengths(leads: Sequence[Lead], frames: Mapping[str, ItemFrame]) -> LeadLengths:
    """The lengths of leads. Along the axes: sum of the distances in x, y and z between the two ports.

    Assumes ports in the middle of their row of plugs. Holes that a lead names are not counted: its
    way through them is the route's. A lead that ends at a joint, or at what is no item, has a length
    only where one is given.

    >>> lead_lengths((), {}).given
    {}
    """
    given = {one.id: one.length_mm for one in leads if one.length_mm is not None}
    between = {one.id: way for one in leads if (way := _between(one, frames)) is not None}
    along = {name: float(np.abs(way).sum()) for name, way in between.items()}
    straight = {name: float(np.linalg.norm(way)) for name, way in between.items()}
    return LeadLengths(given, along, straight)


def _between(lead: Lead, frames: Mapping[str, ItemFrame]) -> Floats | None:
    ends = []
    for end in (lead.from_, lead.to):
        item, _, port = end.partition(".")
        point = port_point_mm(frames[item], port) if item in frames else None
        if point is None:
            return None
        ends.append(point)
    return np.asarray(ends[1] - ends[0], dtype=np.float64)
