"""Leads as supplied that are too short for where their ends stand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from hardstand.asbuilt.value import AsBuilt
from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.engines.fit.placement.leads import hole_points, place_of


@dataclass(frozen=True, slots=True)
class Short:
    """A lead that needs more than it has: both in mm, along the axes from port to port."""

    lead: str
    needs_mm: float
    has_mm: float


def short_leads(asbuilt: AsBuilt, frames: Mapping[str, ItemFrame]) -> tuple[Short, ...]:
    """The leads with a length in the description that do not reach, by way of the holes they name.

    Slack is not counted: a lead that only just reaches is not listed.
    """
    found = []
    for row in asbuilt.leads:
        if row.length_mm is None:
            continue
        others = [one for one in asbuilt.leads if one is not row]
        ends = [place_of(end, others, frames) for end in (row.from_, row.to)]
        on_items = all(end.partition(".")[0] in frames for end in (row.from_, row.to))
        if not on_items or ends[0] is None or ends[1] is None:
            continue
        way = np.array([ends[0], *hole_points(asbuilt, row.via), ends[1]])
        needs = float(np.abs(np.diff(way, axis=0)).sum())
        if needs > row.length_mm:
            found.append(Short(row.id, needs, row.length_mm))
    return tuple(found)
