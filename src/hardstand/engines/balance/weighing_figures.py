"""What each weigh-in measured, and how far that is from the parts, as figures."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hardstand.engines.balance.fitted import shared_readings
from hardstand.engines.balance.model import MassTable, Sums
from hardstand.engines.balance.seen import Seen
from hardstand.figures import FigureSet

ROWS = (("mass", "g", "mass"), ("cg", "mm", "CG, station"), ("cg-y", "mm", "CG, to starboard"))
BUILT = ("mass", "cg-x", "cg-y")


def weighing_figures(seen: Sequence[Seen], table: MassTable, sums: Sums) -> FigureSet:
    """`balance.weighed-…@id` as measured and `balance.weigh-in-…@id` less built up, of every weigh-in.

    A measured value that needs the height of the CG or the mass takes them from the build-up.
    """
    readings, by_reading = shared_readings(seen)
    addresses, values, units, labels, rows = [], [], [], [], []
    steps: dict[str, tuple[str, ...]] = {}
    start = 0
    for one in seen:
        built = sums.slope[one.row]
        residual, slope = one.against(sums.values[one.row], built)
        state = one.weighed.weighing.state
        for at, row in enumerate(one.rows):
            name, unit, label = ROWS[row]
            own = by_reading[start + at]
            weighed = f"balance.weighed-{name}@{one.weighed.id}"
            apart = f"balance.weigh-in-{name}@{one.weighed.id}"
            addresses += [weighed, apart]
            values += [one.at_built[at], residual[at]]
            units += [unit, unit]
            labels += [f"{label}, weighed", f"{label}, weighed less built up"]
            rows.append(np.concatenate([one.by_built[at] @ built, own]))
            rows.append(np.concatenate([-slope[at], own]))
            steps[apart] = (weighed, f"balance.built-{BUILT[row]}@{state}")
        start += len(one.rows)
    width = len(table.inputs) + len(readings)
    return FigureSet(
        tuple(addresses),
        np.array(values, dtype=np.float64),
        tuple(units),
        (*table.inputs, *readings),
        np.array(rows, dtype=np.float64).reshape(len(addresses), width),
        labels=tuple(labels),
        steps=steps,
        method="statics of the aeroplane on its scales or stand",
    )
