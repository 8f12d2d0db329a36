"""A plan of channels as an assignment: plugs, the outputs they may go to, and what is asked of them.

Whole numbers throughout, mA and mm, so that a best plan is exactly best. Outputs that are alike in
every way that counts (unit, rail, row, place, what they stand) form one *place* of so many outputs.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

Level = Literal["failures", "changes", "length", "spread"]
LEVELS: tuple[Level, ...] = ("failures", "changes", "length", "spread")  # the first before all others
ANEW: tuple[Level, ...] = ("failures", "length", "spread", "changes")
WHOLE_AXIS, PAIR, FUNCTION = 100, 10, 1  # points for a single failure that takes it
PARTS = 60  # a current is shared by 1 to 6 packs without a remainder
Spot = tuple[int, int]  # a place, and the number of an output in it
Bar = Literal["current", "gyro", "stuck", "voltage"]


@dataclass(frozen=True, slots=True)
class Place:
    """Outputs that are alike, by their ends, at one item and on one rail (`domain`)."""

    ends: tuple[str, ...]
    item: str
    domain: str


@dataclass(frozen=True, slots=True)
class Plug:
    """What is plugged into one output: its first lead, and what that needs.

    `now` is where it is; `fits` the places that take its plug, with the straight way from there (mm);
    `barred` those of them that it must not go to, and why; `short` those that its lead does not reach.
    """

    id: str
    now: Spot
    ma: int
    fits: Mapping[int, int]
    barred: Mapping[int, Bar] = field(default_factory=dict)
    short: frozenset[int] = frozenset()
    kept: bool = False

    @property
    def open(self) -> tuple[int, ...]:
        """The places that it may go to."""
        return tuple(one for one in self.fits if one not in self.barred)


@dataclass(frozen=True, slots=True)
class Group:
    """Plugs that are not to be lost all at once, what they are in words, and the points if they are."""

    words: str
    points: int
    plugs: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Failure:
    """What alone may fail, and the places that are dead then."""

    id: str
    dead: frozenset[int]


@dataclass(frozen=True, slots=True)
class Capacity:
    """What carries the current of some places, with what it carries anyway and may carry, mA."""

    about: str
    words: str
    base_ma: int
    most_ma: int
    places: frozenset[int]


@dataclass(frozen=True, slots=True)
class Share:
    """A unit or a pack: what it carries anyway (mA), and of each place so many sixtieths."""

    id: str
    base_ma: int
    parts: Mapping[int, int]


@dataclass(frozen=True, slots=True)
class Problem:
    """Everything that decides a plan. `balances` are families whose shares are to be alike."""

    places: tuple[Place, ...]
    plugs: tuple[Plug, ...]
    groups: tuple[Group, ...] = ()
    failures: tuple[Failure, ...] = ()
    capacities: tuple[Capacity, ...] = ()
    balances: tuple[tuple[Share, ...], ...] = ()


Plan = tuple[Spot, ...]  # where each plug goes, in the order of the plugs


@dataclass(frozen=True, slots=True)
class Cost:
    """What a plan costs, level by level.

    `failures` are points over all single failures and what each takes; `changes` plugs at another
    output, one more where the lead does not reach; `length` mm; `spread` sixtieths of a mA.
    """

    failures: int
    changes: int
    length: int
    spread: int

    def ranked(self, order: tuple[Level, ...] = LEVELS) -> tuple[int, ...]:
        """The levels in an order, to compare plans by."""
        return tuple(getattr(self, level) for level in order)
