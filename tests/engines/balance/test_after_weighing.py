from __future__ import annotations

import numpy as np

from hardstand.engines.balance.after_weighing import counts, inputs_after, slope_after, table_after
from hardstand.engines.balance.model import MassTable, Weighings
from hardstand.engines.balance.totals import totals
from tests.aeroplanes import SMALL, assessed, weighed_as

TIPPED = (
    '[[weighing]]\nid = "w"\nstate = "empty"\nmethod = "stand"\nstand_x_mm = 930\ntips = "tail"\n'
)
FOUND = assessed(SMALL, weighed_as(8950.0, (955.0, 1.5, -12.0)))
TABLE: MassTable = FOUND.results["balance.masses"]
WEIGHED: Weighings = FOUND.results["balance.weighings"]


def test_only_weigh_ins_with_readings_count() -> None:
    """None, and one that merely tipped, leave table, slopes and inputs as they were."""
    tipped: Weighings = assessed(SMALL, TIPPED).results["balance.weighings"]
    slope = totals(TABLE)[1]
    for nothing in (None, tipped):
        assert not counts(nothing)
        assert table_after(TABLE, nothing) is TABLE
        assert slope_after(slope, nothing) is slope
        assert inputs_after(TABLE.inputs, nothing) == TABLE.inputs


def test_the_estimate_is_the_best_there_is() -> None:
    """Any other gain gives every state a larger uncertainty: the least squares are least."""
    u = np.array([one.u for one in inputs_after(TABLE.inputs, WEIGHED)])
    slope = totals(table_after(TABLE, WEIGHED))[1][:, 1]
    best = np.linalg.norm(slope_after(slope, WEIGHED) * u, axis=-1)
    for factor in (0.9, 1.1):
        by_row = factor * slope @ WEIGHED.gain
        other = np.hstack([slope - by_row @ WEIGHED.rows, by_row @ WEIGHED.by_reading])
        assert np.all(np.linalg.norm(other * u, axis=-1) > best)
