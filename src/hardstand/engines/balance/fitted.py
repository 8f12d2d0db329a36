"""The inputs of the build-up moved by all weigh-ins together, by generalised least squares."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hardstand.engines.balance.model import Floats, MassTable
from hardstand.engines.balance.moved import moved, only_states
from hardstand.engines.balance.seen import Seen
from hardstand.engines.balance.totals import totals
from hardstand.figures import Input

ROUNDS = 3  # Gauss-Newton: the second already changes nothing that could be printed


@dataclass(frozen=True, eq=False)
class Fitted:
    """What weigh-ins do to the inputs; see `model.Weighings` for the arrays."""

    readings: tuple[Input, ...]
    step: Floats
    gain: Floats
    rows: Floats
    by_reading: Floats


def shared_readings(seen: Sequence[Seen]) -> tuple[tuple[Input, ...], Floats]:
    """All readings once each, and the slopes of all measured rows by them (R, Q).

    The contact point of one leg is the same in every weigh-in: its error is shared. Where two
    weigh-ins state another tolerance for it, the larger counts.
    """
    column: dict[str, int] = {}
    inputs: list[Input] = []
    blocks = []
    for one in seen:
        where = []
        for reading in one.readings:
            at = column.setdefault(reading.address, len(inputs))
            if at == len(inputs):
                inputs.append(reading)
            elif reading.u > inputs[at].u:
                inputs[at] = reading
            where.append(at)
        blocks.append((where, one.by_reading))
    slope = np.zeros((sum(len(block) for _, block in blocks), len(inputs)))
    start = 0
    for where, block in blocks:
        slope[start : start + len(block), where] = block
        start += len(block)
    return tuple(inputs), slope


def solved(spread: Floats, right: Floats) -> Floats:
    """Solve spread x = right for a covariance that may be singular (exact, repeated readings)."""
    size = np.sqrt(np.diag(spread))
    size = np.where(size > 0.0, size, 1.0)
    inverse = np.linalg.pinv(spread / np.outer(size, size), rcond=1e-12, hermitian=True)
    scaled = (right.T / size).T
    return np.asarray(((inverse @ scaled).T / size).T, dtype=np.float64)


def fitted(seen: Sequence[Seen], table: MassTable) -> Fitted | None:
    """The best linear unbiased estimate of the inputs, repeated about what it finds.

    theta+ = theta + P H' S^-1 r with S = H P H' + R. The build-up is taken as exactly straight only
    within a round. Parameters: seen, not empty; table of all states. Returns None where the
    weigh-ins and the parts cannot be brought together: a state would lose or gain half its mass.
    Source: common practice, no source (the Gauss-Markov theorem with a prior).
    """
    readings, by_reading = shared_readings(seen)
    measured = by_reading * np.array([one.u for one in readings])
    noise = measured @ measured.T
    prior = np.array([one.u for one in table.inputs]) ** 2
    weighed_only = only_states(table, [one.row for one in seen])
    step = np.zeros(len(prior))
    for _ in range(ROUNDS):
        values, slope, _ = totals(moved(weighed_only, step))
        against = [one.against(values[k], slope[k]) for k, one in enumerate(seen)]
        residual = np.concatenate([one for one, _ in against])
        rows = np.vstack([one for _, one in against])
        spread = (rows * prior) @ rows.T + noise
        gain = solved(spread, rows * prior).T
        step = gain @ (residual + rows @ step)
        share = moved(table, step).mass_g.sum(axis=1) / table.mass_g.sum(axis=1)
        if not np.all((share > 0.5) & (share < 2.0)):
            return None
    return Fitted(readings, step, gain, rows, by_reading)
