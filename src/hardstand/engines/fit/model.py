"""The results of the fit engine, frozen, as the views and later engines read them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hardstand.changes import Change
from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.stack import Index
from hardstand.figures import FigureSet


@dataclass(frozen=True, slots=True)
class Check:
    """One figure held against one limit.

    `slug` is the rule's code without its stage; `limit_id` the limit; `about` the ids concerned, the
    one that would be moved first; `address` the figure; `words` what the sentence needs beside it;
    `station_mm` where to look, None where that says nothing.
    """

    slug: str
    limit_id: str
    about: tuple[str, ...]
    address: str
    words: tuple[str, ...] = ()
    station_mm: float | None = None


@dataclass(frozen=True, eq=False)
class Checks:
    """Figures and what each is held against: check k belongs to row k of the figures."""

    figures: FigureSet
    checks: tuple[Check, ...]


@dataclass(frozen=True, eq=False)
class Clearances(Checks):
    """Distances between pieces, worst first: by how much each is over or under its limit.

    a, b (N,) index the pieces of `fit.solids`; distance_mm, u_mm, margin_mm (N,): signed distance,
    its standard uncertainty, and distance less limit; point_a, point_b, normal (N, 3) as in
    `Separations`.
    """

    a: Index
    b: Index
    distance_mm: Floats
    u_mm: Floats
    margin_mm: Floats
    point_a: Floats
    point_b: Floats
    normal: Floats


@dataclass(frozen=True, slots=True)
class Gap:
    """Something that cannot be judged for want of a description, and what to add."""

    slug: str
    about: tuple[str, ...]
    text: str


@dataclass(frozen=True, eq=False)
class Gyros(Checks):
    """Checks on gyros, and what is missing for them."""

    gaps: tuple[Gap, ...]


@dataclass(frozen=True, eq=False)
class Aerials(Checks):
    """Checks on aerials, and the receivers whose aerials are not described."""

    gaps: tuple[Gap, ...]


@dataclass(frozen=True, eq=False)
class Access(Checks):
    """Checks on what must come out, be reached and be seen, and what is missing for them."""

    gaps: tuple[Gap, ...]


@dataclass(frozen=True, eq=False)
class Contained(Checks):
    """Checks of items within their trays and bays; `outside_bays`: items that lie in no bay."""

    outside_bays: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PassThrough:
    """The leads that go through one opening.

    wires: how many; bundle_mm: how thick they are tied; needed_mm: the round opening of which they
    fill `fill_pct`; assumed: the leads whose wires or gauge are not described.
    """

    hole: str
    leads: tuple[str, ...]
    wires: int
    bundle_mm: float
    needed_mm: float
    fill_pct: float
    assumed: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class PassThroughs(Checks):
    """Checks of the openings that leads are routed through, and their bundles."""

    rows: tuple[PassThrough, ...]


@dataclass(frozen=True, slots=True)
class Move:
    """The smallest move of an item found that clears a check and spoils no other.

    by_mm: (dx, dy); change: the new place; tightest_mm: the least spare beyond a limit left about
    that item afterwards; nearest: the name of what is nearest then, if anything; clears_all: it clears all
    that is too near this item, not only the check.
    """

    item: str
    by_mm: tuple[float, float]
    change: Change
    tightest_mm: float
    nearest: str | None
    clears_all: bool


@dataclass(frozen=True)
class Moves:
    """Moves by (slug, about) of the check they clear."""

    found: Mapping[tuple[str, tuple[str, ...]], Move]
