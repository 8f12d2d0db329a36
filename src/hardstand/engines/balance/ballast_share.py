"""Node: how much of the aeroplane is ballast."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.engines.balance.model import Ballast, Headline
from hardstand.figures import FigureSet

ZONE = "ballast"


def ballast_share(slices: Any, earlier: Any) -> Ballast | None:
    """Masses of the zone "ballast" as a share of the lightest state's mass; None without any."""
    head: Headline | None = earlier["balance.headline"]
    pieces = [point for point in slices.masses if point.group == ZONE]
    if head is None or not pieces:
        return None
    row = int(np.argmin(head.mass_g))
    total, mass = sum(point.mass.value for point in pieces), float(head.mass_g[row])
    share = 100.0 * total / mass
    own = {point.mass.address for point in pieces}
    slope = -share / mass * head.slope[row, 0]
    slope += np.array([100.0 / mass * (one.address in own) for one in head.inputs])
    address = "balance.ballast-share@aeroplane"
    figures = FigureSet(
        (address,),
        np.array([share]),
        ("pct",),
        head.inputs,
        slope[None],
        labels=("ballast, share of the mass",),
        steps={address: (f"balance.mass@{head.state_ids[row]}",)},
        method="ballast as entered over the mass of the lightest state",
    )
    return Ballast(share, total, tuple(point.id for point in pieces), figures)
