"""Node: every weigh-in against the build-up of its state, and what they do to the parts together."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.engines.balance.fitted import Fitted, fitted, solved
from hardstand.engines.balance.model import Floats, MassTable, Sums, WeighedIn, Weighings
from hardstand.engines.balance.on_scales import on_scales
from hardstand.engines.balance.on_stand import levels, on_stand, tipped
from hardstand.engines.balance.reconcile import chi_square_chance
from hardstand.engines.balance.seen import Seen
from hardstand.engines.balance.suspecting import suspects_of
from hardstand.engines.balance.usable import why_unusable
from hardstand.engines.balance.weighing_figures import weighing_figures


def weighings(slices: Any, earlier: Any) -> Weighings | None:
    """Set every weigh-in against the build-up and find by least squares how the inputs move.

    None without weigh-ins. A stand that only tipped bounds the CG and moves nothing; a weigh-in that
    cannot be, such as one of twice the mass, is named and left out.
    """
    table: MassTable | None = earlier["balance.masses"]
    sums: Sums | None = earlier["balance.sums"]
    if table is None or sums is None or not slices.weighings:
        return None
    seen: list[Seen] = []
    shown: list[WeighedIn] = []
    unusable: list[tuple[str, str]] = []
    states = {state.id: state for state in slices.states}
    for one in slices.weighings:
        state = states[one.weighing.state]
        row = table.state_ids.index(state.id) if state.id in table.state_ids else None
        values = None if row is None else sums.values[row]
        why = why_unusable(one, state, slices.legs, None if values is None else float(values[0]))
        if row is None or values is None or why is not None:
            unusable.append((one.id, why or ""))
        elif one.weighing.method == "scales":
            seen.append(on_scales(one, slices.legs, values, row))
        elif levels(one):
            seen.append(on_stand(one, values, row))
        else:
            shown.append(tipped(one, values, _u_x_mm(sums, table, row)))
    fit = fitted(seen, table) if seen else None
    if fit is None:
        unusable += [(one.weighed.id, APART) for one in seen]
        fit, seen = _unmoved(len(table.inputs)), []
    shown += [_shown(one, table, sums) for one in seen]
    order = [one.id for one in slices.weighings]
    return Weighings(
        tuple(sorted(shown, key=lambda one: order.index(one.id))),
        tuple(unusable),
        fit.readings,
        fit.step,
        fit.gain,
        fit.rows,
        fit.by_reading,
        weighing_figures(seen, table, sums),
    )


APART = "it and the parts are so far apart that nothing could bring them together"


def _unmoved(inputs: int) -> Fitted:
    none = np.zeros((0, inputs))
    return Fitted((), np.zeros(inputs), none.T, none, np.zeros((0, 0)))


def _u_x_mm(sums: Sums, table: MassTable, row: int) -> float:
    u = np.array([one.u for one in table.inputs])
    return float(np.linalg.norm(sums.slope[row, 1] * u))


def _shown(found: Seen, table: MassTable, sums: Sums) -> WeighedIn:
    values: Floats = sums.values[found.row]
    residual, slope = found.against(values, sums.slope[found.row])
    prior = np.array([one.u for one in table.inputs]) ** 2
    spread = (slope * prior) @ slope.T + found.covariance
    chi = float(residual @ solved(spread, residual))
    u_residual = np.sqrt(np.diag(spread))
    mass, x, y = (found.measured(row) for row in range(3))
    assert x is not None  # every weigh-in that is seen tells a station
    at = found.rows.index(1)
    suspects = suspects_of(found, table, sums)
    return WeighedIn(
        found.weighed.id,
        found.weighed.weighing.state,
        found.weighed.weighing.method,
        mass[0] if mass else float(values[0]),
        mass[1] if mass else 0.0,
        x[0],
        x[1],
        y[0] if y else None,
        y[1] if y else None,
        float(residual[0]) if mass else 0.0,
        float(u_residual[0]) if mass else 0.0,
        float(residual[at]),
        float(u_residual[at]),
        chi_square_chance(chi, len(residual)),
        tuple(one.suspect for one in suspects),
        tuple(one.name for one in suspects),
        tuple(one.words for one in suspects),
        residual_y_mm=float(residual[2]) if y else None,
        u_residual_y_mm=float(u_residual[2]) if y else None,
    )
