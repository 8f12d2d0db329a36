"""Volts to spare after each lead, and how thin that lets it be."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.choice.case import Case
from hardstand.engines.power.choice.choose import least_mm2
from hardstand.standards.wire_resistance import RESISTIVITY

Floats = NDArray[np.float64]
_LOWEST = ("power.rail", "power.reset-headroom", "power.low-headroom")


def volts_mm2(case: Case) -> Floats:
    """Metal with which nothing after a lead leaves its limit, mm2, (L).

    Leads in series share what is to spare; where nothing is, a lead must stay as thick as it is.
    """
    spare = spare_v(case)
    now_v = 2e-3 * RESISTIVITY * case.length_mm * case.currents.worst_a / case.area_mm2
    series = np.array([case.after.series[one] for one in case.leads])
    most = now_v + np.maximum(spare, 0.0) / series
    bound = np.isfinite(most) & (case.currents.worst_a > 0.0)
    least = least_mm2(case.length_mm * case.currents.worst_a, np.where(bound, most, 1.0))
    return np.where(bound, least, 0.0)


def spare_v(case: Case) -> Floats:
    """Volts to spare after each lead, less U, (L); infinite where nothing that is judged hangs on it."""
    figures, domain = case.moments.figures, {one.end: one.domain for one in case.power.consumers}
    found: dict[str, float] = {}
    for address, value, u in zip(figures.addresses, figures.values.tolist(), figures.u.tolist(),
                                 strict=True):  # fmt: skip
        code, _, end = address.partition("@")
        limit = case.limits.get(code) if code in _LOWEST else None
        if limit is not None and limit.low is not None:
            node = domain.get(end, end)
            found[node] = min(found.get(node, np.inf), value - 2.0 * u - limit.low)
    return np.array([min((found[one] for one in case.after.domains[lead] if one in found),
                         default=np.inf) for lead in case.leads])  # fmt: skip
