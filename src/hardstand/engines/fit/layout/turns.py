"""Which of two kinds of proof goes on: the one whose bound has risen most for its latest work.

Work is counted in linear programmes and never in seconds, so that the turns are always the same.
"""

from __future__ import annotations

import math

# A yield is what a bound rose by over at least so many linear programmes.
_SPAN = 500.0
# A kind is slow once it yields less than this part of what it has yielded on the whole.
_SLOW = 0.05
# Neither kind is left with less than this part of all the work once the first is slow.
_LEAST_SHARE = 0.125


class Way:
    """One kind of proof: how much work it had, its own bound, and what that rose by lately.

    It is judged by its own bound even while the other's is higher, or it would be given up before
    it could come past.

    >>> way = Way(100.0)
    >>> way.did(500.0, 150.0)
    >>> way.gain, way.slow
    (0.1, False)
    >>> way.did(500.0, 150.0)
    >>> way.gain, way.slow
    (0.0, True)
    """

    def __init__(self, least: float) -> None:
        self.first = self.least = least
        self.work, self.gain = 0.0, math.inf
        self._since = (0.0, least)

    def did(self, work: float, least: float) -> None:
        """So much work more has been done, and the bound is now `least`."""
        self.work += work
        self.least = max(self.least, least)
        before, was = self._since
        if self.work - before >= _SPAN:
            self.gain = (self.least - was) / (self.work - before)
            self._since = (self.work, self.least)

    @property
    def slow(self) -> bool:
        """Whether it yields little now by its own measure."""
        return self.gain * self.work <= _SLOW * (self.least - self.first)


def first_goes_on(one: Way, other: Way) -> bool:
    """Whether the next round is for the first of two kinds of proof.

    The second has its first turn when the first is slow. From then on the better yield goes on, of
    equal ones the kind that has had less work, and each has some share of the work in any case.

    >>> one, other = Way(0.0), Way(0.0)
    >>> one.did(500.0, 90.0)
    >>> first_goes_on(one, other)
    True
    >>> one.did(500.0, 90.0)
    >>> first_goes_on(one, other)
    False
    >>> other.did(4000.0, 0.0)
    >>> first_goes_on(one, other)
    True
    """
    if one.work <= 0.0 or not one.slow:
        return True
    share = _LEAST_SHARE * (one.work + other.work)
    if min(one.work, other.work) < share:
        return one.work < other.work
    return (one.gain, -one.work) > (other.gain, -other.work)
