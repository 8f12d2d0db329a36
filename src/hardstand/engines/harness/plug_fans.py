"""The runs that leave every plug, with what each goes through, and those straight between plugs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import numpy as np

from hardstand.engines.harness.fans import (
    Box,
    Exit,
    Fan,
    Reach,
    fan,
    meeting,
    reach_to,
    straight_to,
)
from hardstand.engines.harness.lane_runs import FREE, LaneRuns
from hardstand.engines.harness.links import Index, Links, by_point, cost
from hardstand.engines.kept import Kept

Fans = Mapping[str, tuple[int, Fan]]  # by end, or by both ends: the number of the point, and its runs


def plug_fans(
    runs: LaneRuns, exits: Mapping[str, Exit], numbers: Mapping[str, int],
    straight: Iterable[tuple[str, str]], boxes: Sequence[Box], kept: Kept, kind: str,
) -> Fans:  # fmt: skip
    """The runs that leave every end, and the straight ones, which are named by both ends."""
    asked: dict[str, tuple[Exit, ...]] = {end: (one,) for end, one in exits.items()}
    asked |= {f"{one} to {other}": (exits[one], exits[other]) for one, other in straight}
    places = {name: (runs, ends[0].at, ends[0].inside, *((ends[1].at, numbers[ends[1].end]) if
              ends[1:] else ())) for name, ends in asked.items()}  # fmt: skip
    reaches = kept.each(f"{kind} reaches", places, _reach)
    meet = meeting(list(reaches.values()), boxes)
    contents = {
        name: (reaches[name], ends, tuple(boxes[k] for k in here))
        for (name, ends), here in zip(asked.items(), meet, strict=True)
    }  # fmt: skip
    made = kept.each(f"{kind} fans", contents, lambda one: fan(*one))
    return {name: (numbers[asked[name][0].end], one) for name, one in made.items()}


def _reach(place: tuple[Any, ...]) -> Reach:
    runs, at, inside, *goal = place
    return straight_to(runs, at, goal[1], goal[0]) if goal else reach_to(runs, at, inside=inside)


def linked(fans: Fans, count: int) -> Links:
    """All fans as links of a graph of so many points."""
    near = [np.full(len(one.reach.far), number, dtype=np.intp) for number, one in fans.values()]
    none: Index = np.zeros(0, dtype=np.intp)
    a = np.concatenate([none, *(one.reach.far for _, one in fans.values())])
    b = np.concatenate([none, *near])
    length = np.concatenate([np.zeros(0), *(one.reach.length_mm for _, one in fans.values())])
    through = np.concatenate([np.zeros(0, bool), *(one.through for _, one in fans.values())])
    return Links(a, b, cost(length, FREE, through), through, *by_point(a, b, count))
