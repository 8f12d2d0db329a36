"""What the body takes from the neutral point: from its inside sections, or a named default."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, sqrt

import numpy as np

from hardstand.asbuilt.value import BaySection
from hardstand.engines.balance.body_flow import BodyMoment, body_moment
from hardstand.engines.balance.lattice import solve_lattice
from hardstand.engines.balance.neutral_point_model import NeutralPoint
from hardstand.engines.balance.panel import Panel

SKIN_MM = 2.0  # the body is described by its inside; a moulded shell adds about this much each side
LEAST_STATIONS = 3
WHOLE = 0.8  # of the length: sections over less than this leave too much of the body out
# Jet bodies with intakes take 5 to 12 % of the MAC: value from memory.
TYPICAL_PCT = -8.5
TYPICAL_U_PCT = (12.0 - 5.0) / sqrt(12.0)


def widths_mm(sections: tuple[BaySection, ...]) -> dict[float, float]:
    """Outside width of the body by station; where bays lie side by side, the widest."""
    widths: dict[float, float] = {}
    for section in sections:
        y = [point[0] for point in section.outline_mm]
        outside = max(y) - min(y) + 2.0 * SKIN_MM
        widths[section.x_mm] = max(widths.get(section.x_mm, 0.0), outside)
    return dict(sorted(widths.items()))


def body_of(
    sections: tuple[BaySection, ...], wing: tuple[Panel, ...], length_mm: float | None
) -> tuple[BodyMoment | None, str]:
    """The body's moment slope, or None where its sections do not tell it, and why in words."""
    widths = widths_mm(sections)
    typical = (
        f"the body's share of the neutral point is taken as {TYPICAL_PCT:g} ± {2.0 * TYPICAL_U_PCT:.0f} % "
        "of the MAC (typical of jets, value from memory)"
    )
    if len(widths) < LEAST_STATIONS:
        return (
            None,
            f"fewer than {LEAST_STATIONS} inside sections of the body are described: {typical}",
        )
    stations = np.array(list(widths))
    span = float(stations[-1] - stations[0])
    if length_mm is not None and span < WHOLE * length_mm:
        return None, (
            f"inside sections cover {span:.0f} mm of a body {length_mm:.0f} mm long: {typical}"
        )
    flow = solve_lattice([wing])
    return body_moment(flow, wing, stations, np.array(list(widths.values()))), ""


def with_body(
    point: NeutralPoint, body: BodyMoment | None, body_tol_pct: float | None
) -> NeutralPoint:
    """The neutral point with the typical body where none was told, and the builder's own tolerance.

    `body_tol_pct` is the half-width of 95 % of the body's share, % MAC; None keeps what the two ways
    of working it out leave open.
    """
    shift = 0.0 if body is not None else TYPICAL_PCT
    own_u = point.body_u_pct if body is not None else TYPICAL_U_PCT
    u = own_u if body_tol_pct is None else 0.5 * body_tol_pct
    others = max(point.normal_u_pct**2 - point.body_u_pct**2, 0.0)
    return replace(
        point,
        lower_pct=point.lower_pct + shift,
        upper_pct=point.upper_pct + shift,
        body_pct=point.body_pct + shift,
        body_u_pct=u,
        normal_u_pct=hypot(sqrt(others), u),
    )
