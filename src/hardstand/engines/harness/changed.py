"""What is another from one graph to the next, and what ways by it cost at least."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from hardstand.engines.harness.lane_runs import Place
from hardstand.engines.harness.links import Index
from hardstand.engines.harness.solids import Floats


@dataclass(frozen=True, eq=False)
class Changed:
    """Runs (K,) between points a and b with what they now cost; infinite where they are no more."""

    a: Index
    b: Index
    cost: Floats

    def runs(self) -> set[tuple[int, int]]:
        """The runs by their points, both ways round."""
        there = zip(self.a.tolist(), self.b.tolist(), strict=True)
        return {pair for a, b in there for pair in ((a, b), (b, a))}

    def least(self, places: Sequence[Place], pairs: Sequence[tuple[int, int]]) -> list[float]:
        """What a way between each pair of points costs at least that goes by any of these runs.

        No way costs less than it is long, so it is the run with straight lines on either side.
        """
        there = np.flatnonzero(np.isfinite(self.cost))
        if not len(there) or not pairs:
            return [inf] * len(pairs)
        points, at = np.unique([self.a[there], self.b[there]], return_inverse=True)
        a, b = at.reshape(2, -1)
        met = np.array([places[k] for k in points.tolist()])
        far = [np.sqrt(sum((np.array([places[pair[side]][axis] for pair in pairs])[:, None]
                            - met[:, axis]) ** 2 for axis in range(3))) for side in (0, 1)]  # fmt: skip
        either = np.minimum(far[0][:, a] + far[1][:, b], far[0][:, b] + far[1][:, a])
        return list((either + self.cost[there]).min(axis=1).tolist())
