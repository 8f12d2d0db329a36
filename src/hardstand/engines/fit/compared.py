"""What the fit has to say where options are compared: the tightest clearance, by what it has to spare."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.engines.fit.model import Check, Checks
from hardstand.engines.node import Compared
from hardstand.figures import Figure
from hardstand.findings import Limit
from hardstand.standards.units import show

OPENINGS = "hole-gap"  # over an opening: nothing touches there
DISTANCES = ("fit.clearances", "fit.containment")
SPARE = ("{} more to spare at the tightest clearance", "{} less to spare at the tightest clearance")
STEP_MM = 1.0


def compared(asbuilt: Any, results: Mapping[str, Any]) -> tuple[Compared, ...]:
    """How much the tightest distance has beyond its limit, and between which two."""
    limits: Mapping[str, Limit] = asbuilt.limits
    found: list[tuple[float, str, Figure, Check, float]] = []
    for name in DISTANCES:
        result: Checks | None = results.get(name)
        for check in result.checks if result is not None else ():
            low = limits[check.limit_id].low
            assert result is not None
            figure = result.figures.figure(check.address)
            if low is not None and figure.unit == "mm" and check.slug != OPENINGS:
                found.append((figure.value - low, check.address, figure, check, low))
    if not found:
        return (Compared("fit.spare", "tightest clearance", None, SPARE, STEP_MM,
                         note="nothing stands near anything else"),)  # fmt: skip
    spare, _, figure, check, low = min(found, key=lambda one: one[:2])
    of = f"{' to '.join(check.about)}: {show(figure.value, 'mm', figure.u)}, needs {show(low, 'mm')}"
    spare_figure = Figure("fit.spare@tightest", spare, "mm", figure.u, "computed",
                          label="what the tightest clearance has beyond its limit")  # fmt: skip
    return (Compared("fit.spare", "tightest clearance, to spare", spare_figure, SPARE, STEP_MM, of=of),)
