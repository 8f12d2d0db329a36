"""Slopes by central differences, for figures that are smooth and cheap."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from hardstand.engines.balance.model import Floats

STEP_MM = 0.5  # the figures of the wheels are smooth over it to nine digits


def difference(
    of: Callable[[Floats], Any], at: Floats, entry: Any, step: float = STEP_MM
) -> Floats:
    """How `of` changes per unit of one entry of `at` (an index or a tuple of them).

    >>> difference(lambda at: at[0] * at[1], np.array([2.0, 3.0]), 0).item()
    3.0
    """
    ends = []
    for by in (-step, step):
        varied = at.copy()
        varied[entry] += by
        ends.append(np.asarray(of(varied), dtype=np.float64))
    return np.asarray((ends[1] - ends[0]) / (2.0 * step), dtype=np.float64)
