"""The course of an annealing: which moves are tried, what is accepted, and what is remembered."""

from __future__ import annotations

import numpy as np

from hardstand.engines.fit.layout.board import Standing
from hardstand.engines.fit.layout.herd import Annealed, Annealer, Floats, Herd, Ints

# Shares of the kinds of move: a small shift, a quarter turn or other stance at the same place,
# anywhere, to the other end of a lead, and two items changing places.
_SHIFT, _TURN, _ANYWHERE, _FOLLOW = 0.55, 0.67, 0.76, 0.86
_RESAMPLED_EACH = 0.15


class Drive:
    """A herd on its way from hot to cold."""

    def __init__(
        self,
        annealer: Annealer,
        start: list[Standing] | None,
        steps: int,
        hot: tuple[float, float],
    ) -> None:
        self.it = annealer
        self.steps, self.step = steps, 0
        self.herd = annealer.start(start)
        self.cost, self.over = annealer.whole(self.herd)
        self.moments = annealer.moments(self.herd)
        level = float(np.median(self.cost))
        self.hot, self.cold = hot[0] * level, hot[1] * level
        self.price = np.full(self.cost.size, level * 1.5e-4)
        self.price_span = (level * 1.5e-4, level * 1e-2)
        self.best: tuple[Ints, Ints] | None = None
        self.best_cost = np.inf
        self.resampled = 0.3

    def once(self) -> None:
        """One move of every layout."""
        done = self.step / self.steps
        warmth = self.hot * (self.cold / self.hot) ** done
        if self.step % 100 == 0:
            self._prices(done)
        if done >= self.resampled:
            self._resample()
            self.resampled += _RESAMPLED_EACH
        self.step += 1
        draw = self.it.random.random()
        if draw < _FOLLOW or self.it.free.size < 2:
            self._single(draw, done, warmth)
        else:
            self._swap(warmth)
        self._remember()

    def _prices(self, done: float) -> None:
        low, high = self.price_span
        rising = np.where(self.over > 0.0, 1.03, 0.97)
        self.price = np.clip(
            self.price * rising, low, high * (1.0 + 3.0 * max(0.0, done - 0.8) / 0.2)
        )
        if done > 0.85:
            self.price = np.maximum(self.price, high * 0.5)

    def _resample(self) -> None:
        """The worse half of the herd becomes copies of the better half."""
        order = np.argsort(self.cost + self.price.mean() * self.over, kind="stable")
        half = order.size // 2
        to, of = order[-half:], order[:half]
        for rows in (
            self.herd.stance, self.herd.corner, self.cost, self.over, self.moments, self.price
        ):  # fmt: skip
            rows[to] = rows[of]

    def _proposed(self, item: Ints, draw: float, done: float) -> tuple[Ints, Ints]:
        """A new stance and corner for one item of each layout."""
        it, table, rows = self.it, self.it.chart, self.it.rows
        stance, corner = self.herd.stance[rows, item], self.herd.corner[rows, item]
        if draw < _SHIFT:
            spread = 1.5 + 100.0 * (1.0 - done) ** 2
            moved = it.random.normal(0.0, spread, (rows.size, 2))
            moved *= it.random.random((rows.size, 2)) < 0.75
            shifted = corner + np.rint(moved).astype(np.int64)
            return stance, np.clip(shifted, table.low[stance], table.high[stance])
        if draw < _TURN:
            new = table.first[item] + (it.random.random(rows.size) * table.count[item]).astype(int)
            middle = corner + table.size[stance] // 2
            shifted = middle - table.size[new] // 2
            return new, np.clip(shifted, table.low[new], table.high[new])
        if draw < _ANYWHERE:
            return it.anywhere(item)
        return self._followed(item, stance, corner)

    def _followed(self, item: Ints, stance: Ints, corner: Ints) -> tuple[Ints, Ints]:
        """One axis set so that a port comes level with the other end of one of its leads."""
        it, table, rows = self.it, self.it.chart, self.it.rows
        pulls = np.maximum(1, (table.weight[item] > 0.0).any(axis=2).sum(axis=1))
        d = (it.random.random(rows.size) * pulls).astype(np.int64)
        other, back = table.other[item, d], table.back[item, d]
        far = table.own[self.herd.stance[rows, other], back][:, :2]
        far = far + 2 * self.herd.corner[rows, other]
        aim = np.rint((far - table.own[stance, d][:, :2]) / 2.0).astype(np.int64)
        axis = it.random.random(rows.size) < 0.5
        new = np.where(np.stack([axis, ~axis], axis=1), aim, corner)
        return stance, np.clip(new, table.low[stance], table.high[stance])

    def _single(self, draw: float, done: float, warmth: float) -> None:
        it, herd, rows = self.it, self.herd, self.it.rows
        item = it.free[(it.random.random(rows.size) * it.free.size).astype(int)]
        old_stance, old_corner = herd.stance[rows, item], herd.corner[rows, item]
        stance, corner = self._proposed(item, draw, done)
        allowed = it.allowed(stance, corner)
        cost = it.pull_cost(herd, item, stance, corner)
        cost -= it.pull_cost(herd, item, old_stance, old_corner)
        over = it.overlap(herd, item, stance, corner)
        over -= it.overlap(herd, item, old_stance, old_corner)
        turned = 2 * (corner - old_corner) + it.chart.size[stance] - it.chart.size[old_stance]
        moments = self.moments + (it.chart.mass[item][:, None] * turned)[:, it.axes]
        cost += (np.abs(moments) - np.abs(self.moments)) @ it.balance_weight
        trial = herd
        if it.apart:
            trial = Herd(herd.stance.copy(), herd.corner.copy())
            trial.stance[rows, item], trial.corner[rows, item] = stance, corner
            cost += it.wishes(trial) - it.wishes(herd)
        taken = np.flatnonzero(allowed & self._accepted(cost, over, warmth))
        herd.stance[taken, item[taken]] = stance[taken]
        herd.corner[taken, item[taken]] = corner[taken]
        self.cost[taken] += cost[taken]
        self.over[taken] += over[taken]
        self.moments[taken] = moments[taken]

    def _accepted(
        self, cost: Floats, over: Floats, warmth: float
    ) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
        return np.asarray(
            cost + self.price * over <= -warmth * np.log(self.it.random.random(cost.size) + 1e-300)
        )

    def _swap(self, warmth: float) -> None:
        """Two items change places, each keeping its turn where it can."""
        it, table, rows = self.it, self.it.chart, self.it.rows
        one = it.free[(it.random.random(rows.size) * it.free.size).astype(int)]
        two = it.free[(it.random.random(rows.size) * it.free.size).astype(int)]
        trial = Herd(self.herd.stance.copy(), self.herd.corner.copy())
        allowed = one != two
        over, cost = np.zeros(rows.size), np.zeros(rows.size)
        for item, other in ((one, two), (two, one)):
            at = self.herd.stance[rows, other]
            stance = it.same_turn[self.herd.stance[rows, item], table.tray[at]]
            allowed &= stance >= 0
            stance = np.maximum(stance, 0)
            middle = self.herd.corner[rows, other] + table.size[at] // 2
            corner = np.clip(
                middle - table.size[stance] // 2, table.low[stance], table.high[stance]
            )
            allowed &= it.allowed(stance, corner)
            trial.stance[rows, item], trial.corner[rows, item] = stance, corner
        for herd, sign in ((self.herd, -1.0), (trial, 1.0)):
            for item in (one, two):
                stance, corner = herd.stance[rows, item], herd.corner[rows, item]
                cost += sign * it.pull_cost(herd, item, stance, corner)
                over += sign * it.overlap(herd, item, stance, corner)
            cost -= sign * self._between(herd, one, two)
            over -= sign * self._overlap_between(herd, one, two)
        moments = it.moments(trial)
        cost += (np.abs(moments) - np.abs(self.moments)) @ it.balance_weight
        if it.apart:
            cost += it.wishes(trial) - it.wishes(self.herd)
        taken = np.flatnonzero(allowed & self._accepted(cost, over, warmth))
        self.herd.stance[taken], self.herd.corner[taken] = trial.stance[taken], trial.corner[taken]
        self.cost[taken] += cost[taken]
        self.over[taken] += over[taken]
        self.moments[taken] = moments[taken]

    def _between(self, herd: Herd, one: Ints, two: Ints) -> Floats:
        """The pulls between two items, which the pulls of both count twice."""
        table, rows = self.it.chart, self.it.rows
        stance, corner = herd.stance[rows, one], herd.corner[rows, one]
        weight = table.weight[one] * (table.other[one] == two[:, None])[:, :, None]
        far = table.own[herd.stance[rows, two][:, None], table.back[one]]
        far[:, :, :2] += 2 * herd.corner[rows, two][:, None, :]
        near = table.own[stance, : weight.shape[1]].copy()
        near[:, :, :2] += 2 * corner[:, None, :]
        return np.asarray((np.abs(near - far) * weight).sum(axis=(1, 2)))

    def _overlap_between(self, herd: Herd, one: Ints, two: Ints) -> Floats:
        """The overlap of two items, which the overlaps of both count twice."""
        table, rows = self.it.chart, self.it.rows
        a, b = herd.stance[rows, one], herd.stance[rows, two]
        off = (herd.corner[rows, two] - herd.corner[rows, one]).astype(np.float32)
        rooms = table.rooms[table.kind[a], table.kind[b]]
        depth = np.minimum(off[:, :1] - rooms[..., 0], rooms[..., 1] - off[:, :1])
        depth = np.minimum(
            depth, np.minimum(off[:, 1:] - rooms[..., 2], rooms[..., 3] - off[:, 1:])
        )
        depth = np.maximum(depth, 0.0)
        found = depth.sum(axis=1) + 0.5 * (depth > 0.0).any(axis=1)
        return np.asarray(found * (table.tray[a] == table.tray[b]), dtype=np.float64)

    def _remember(self) -> None:
        legal = np.where(self.over < 1e-3, self.cost, np.inf)
        at = int(legal.argmin())
        if legal[at] < self.best_cost - 0.5:
            self.best_cost = float(legal[at])
            self.best = (self.herd.stance[at].copy(), self.herd.corner[at].copy())

    def result(self) -> Annealed:
        """The best legal layout met, and the herd as it stands, cheapest first."""
        best = None if self.best is None else self._standings(*self.best)
        order = np.argsort(self.cost + self.price * self.over, kind="stable")
        herd = [self._standings(self.herd.stance[at], self.herd.corner[at]) for at in order]
        unlike = list({tuple(one): one for one in herd}.values())
        return Annealed(best, self.best_cost, unlike, self.step)

    def _standings(self, stance: Ints, corner: Ints) -> list[Standing]:
        first = self.it.chart.first
        return [
            (int(stance[i] - first[i]), int(corner[i, 0]), int(corner[i, 1]))
            for i in range(stance.size - 1)
        ]
