"""Node: the planform with its mean aerodynamic chord, and the neutral point of wing, tail, body."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.description.aeroplane import Panel as PanelRow
from hardstand.description.aeroplane import Stability as StabilityTable
from hardstand.engines.balance.body_share import body_of, with_body
from hardstand.engines.balance.model import Stability
from hardstand.engines.balance.neutral_point import neutral_point
from hardstand.engines.balance.neutral_point_model import NeutralPoint, Tail
from hardstand.engines.balance.panel import Panel
from hardstand.engines.balance.planform import planform
from hardstand.engines.balance.stability_figures import stability_figures
from hardstand.engines.balance.wing_drawn import as_panels, chord_slopes, wing_inputs, wing_panels
from hardstand.figures import Input
from hardstand.standards.tolerances import TAIL_EFFICIENCY

BEHIND_WING = 0.95  # dynamic pressure there over the free stream's: common practice, no source
SOUND_M_S = 340.3  # at sea level, ISO 2533
FASTEST_MACH = 0.6  # beyond it the lattice's rule for fast air does not hold
PLAUSIBLE_PCT = (-100.0, 150.0)  # a neutral point outside this, % MAC, is a slip in the panels
LEAST_CHORD_MM = 1.0
NO_TAIL = Input(
    "stability.tail_efficiency", 1.0, "", 0.0, "declared", "stability.tailless", "there is no tail"
)


def stability(slices: Any, _: Any) -> Stability | None:
    """Node: planform and neutral point, or None without a wing.

    The point is None without a tail, unless the aeroplane is called tailless: it is then that of wing
    and body. Validity: see `neutral_point`; the body is described by its inside sections and a thin skin.
    """
    rows: tuple[PanelRow, ...] = slices.panels
    if not any(row.surface == "wing" for row in rows):
        return None
    wing, drawn_on = wing_panels(rows)
    try:
        shape = planform(wing)
        slope = chord_slopes(rows)
    except (ValueError, ZeroDivisionError):
        return None
    if not shape.mac_mm >= LEAST_CHORD_MM or not np.all(np.isfinite(slope)):
        return None
    tail = as_panels(rows, "tail", "canard")
    efficiency, words = _efficiency(slices.stability, behind=bool(as_panels(rows, "tail")))
    point, assumed, problem = None, [drawn_on], ""
    tailless = slices.stability is not None and slices.stability.tailless
    if tailless:
        efficiency, words = NO_TAIL, ""
    if tail or tailless:
        assumed.append(words)
        point, more, problem = _point(slices, wing, Tail(tail, efficiency.value, efficiency.u))
        assumed += more
    inputs = wing_inputs(rows)
    used = efficiency if point is not None else None
    figures = stability_figures(shape, point, inputs, slope, used)
    assumptions = tuple(one for one in assumed if one)
    return Stability(shape, point, used, assumptions, inputs, slope, problem, figures)


def _point(
    slices: Any, wing: tuple[Panel, ...], tail: Tail
) -> tuple[NeutralPoint | None, list[str], str]:
    """The neutral point, the assumptions behind it, and what kept it from being found."""
    table: StabilityTable | None = slices.stability
    mach, fast = _mach(table)
    # The lattice divides by what a slip in the panels can bring next to nothing.
    with np.errstate(all="ignore"):
        try:
            body, why = body_of(slices.sections, wing, slices.aeroplane.length_mm)
            found = neutral_point(wing, tail, body, mach=mach)
        except (ValueError, ZeroDivisionError, np.linalg.LinAlgError) as error:
            return None, [], f"the neutral point cannot be worked out from these panels: {error}"
        point = with_body(found, body, table.body_tol_pct if table else None)
    low, high = PLAUSIBLE_PCT
    if not low <= point.value_pct <= high or not np.isfinite(point.u_pct):
        return (
            None,
            [],
            (
                f"the panels give a neutral point at {point.value_pct:.0f} % of the MAC, which no aeroplane "
                "has: look for a slipped digit among them"
            ),
        )
    return point, [why, fast], ""


def _mach(table: StabilityTable | None) -> tuple[float, str]:
    speed = table.speed_m_s if table else None
    if speed is None:
        return 0.0, ""
    mach = speed / SOUND_M_S
    if mach <= FASTEST_MACH:
        return mach, ""
    return FASTEST_MACH, (
        f"at {speed:g} m/s the air is beyond what the lattice holds for; it was solved for "
        f"{FASTEST_MACH * SOUND_M_S:.0f} m/s"
    )


def _efficiency(table: StabilityTable | None, *, behind: bool) -> tuple[Input, str]:
    """The tail's dynamic pressure over the free stream's, and in words where it was assumed.

    A canard alone, ahead of the wing, is met by the free stream.
    """
    address = "stability.tail_efficiency"
    given = table.tail_efficiency if table else None
    tol = table.tail_efficiency_tol if table else None
    default = BEHIND_WING if behind else 1.0
    one = Input(
        address,
        default if given is None else given,
        "",
        (TAIL_EFFICIENCY.fixed if tol is None else tol) / 2.0,
        "assumed" if given is None else "declared",
        "" if given is None else address,
        f"class default: {TAIL_EFFICIENCY.name}" if tol is None else "tolerance in the file",
    )
    place = "tail" if behind else "canard"
    words = (
        f"dynamic pressure at the {place} taken as {default:g} of the free stream (common practice)"
    )
    return one, words if given is None else ""
