"""Where no layout exists: the smallest set of requirements that contradict, and by how much."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from hardstand.engines.fit.layout.board import board
from hardstand.engines.fit.layout.feasible import feasibility
from hardstand.engines.fit.layout.problem import Problem
from hardstand.engines.fit.layout.requirements import Requirement, relaxed, requirements, without


@dataclass(frozen=True, slots=True)
class Easing:
    """The least change of one requirement, in whole mm, that alone makes a layout possible."""

    text: str
    about: tuple[str, ...]
    by_mm: int
    kind: str = ""


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Requirements that cannot all be met, none of which can be left out, and ways out.

    `proven`: every single step was decided; else the set may be larger than need be.
    """

    requirements: tuple[Requirement, ...]
    easings: tuple[Easing, ...]
    proven: bool

    @property
    def text(self) -> str:
        """The contradiction and its ways out as sentences."""
        asked = "; ".join(one.text for one in self.requirements)
        ways = "; ".join(f"{one.text} by {one.by_mm} mm" for one in self.easings)
        return f"These cannot all be had: {asked}." + (
            f" Any of these would do: {ways}." if ways else ""
        )


def contradiction(
    problem: Problem,
    seed: int = 1,
    work: float = 10.0,
    most_mm: int = 64,
    stop: Callable[[], bool] = lambda: False,
) -> Contradiction | None:
    """Why there is no legal layout; None where there is one, or none is found nor excluded.

    Requirements are given up one after another, many at a time where that goes; one without which
    the rest can be met is needed. Parameters: `work`, what the proof of each step may cost;
    `most_mm`, the largest easing tried; `stop` ends the search with what is left then.

    >>> from hardstand.engines.fit.layout.problem import Item, Place, Tray
    >>> tray = Tray("shelf", ((0, 0), (59, 0), (59, 20), (0, 20)))
    >>> boxes = tuple(Item(name, (30, 20, 10), (Place("shelf"),)) for name in ("hub", "pump"))
    >>> found = contradiction(Problem((tray,), boxes))
    >>> [one.text for one in found.requirements], [(one.text, one.by_mm) for one in found.easings]
    (['hub finds room', 'pump finds room'], [('shelf longer', 1), ('shelf wider', 10)])
    """
    step = _Steps(seed, work)
    if step.possible(without(problem, set())) is not False:
        return None
    asked = requirements(problem)
    needed = _needed(step, problem, asked, stop)
    core = without(problem, set(asked) - set(needed))
    easings = []
    for one in [*needed, *_of_trays(core)]:
        if stop():
            break
        by_mm = _least(step, core, one, most_mm)
        if by_mm is not None:
            easings.append(Easing(_easing_text(one), one.about, by_mm, one.kind))
    easings.sort(key=lambda one: one.by_mm)
    return Contradiction(tuple(needed), tuple(easings), not step.unsure)


def _needed(
    step: _Steps, problem: Problem, asked: list[Requirement], stop: Callable[[], bool]
) -> list[Requirement]:
    """Requirements none of which can be left out. Halves that can be given up whole go at once."""
    dropped: set[Requirement] = set()
    needed: list[Requirement] = []
    groups = [asked]
    while groups:
        group = groups.pop()
        if not group:
            continue
        if stop():
            step.unsure = True
            needed += group
        elif step.possible(without(problem, dropped | set(group))) is False:
            dropped |= set(group)
        elif len(group) == 1:
            needed += group
        else:
            groups += [group[len(group) // 2 :], group[: len(group) // 2]]
    return needed


class _Steps:
    """Decides single problems and remembers whether any was left undecided."""

    def __init__(self, seed: int, work: float) -> None:
        self.seed, self.work, self.unsure = seed, work, False

    def possible(self, problem: Problem) -> bool | None:
        """Whether a layout exists; None where it is not known."""
        known = feasibility(board(problem), self.seed, self.work)
        if known.standings is not None:
            return True
        if known.proven:
            return False
        self.unsure = True
        return None


def _of_trays(core: Problem) -> list[Requirement]:
    """Trays that items of the contradiction may stand on could be longer or wider."""
    used = {place.tray for item in core.items for place in item.places if item.fixed is None}
    return [
        Requirement(kind, (tray.id,), f"{tray.id} {kind}")
        for tray in core.trays
        if tray.id in used
        for kind in ("longer", "wider")
    ]


def _least(step: _Steps, core: Problem, one: Requirement, most_mm: int) -> int | None:
    """The least easing that makes the core possible, by doubling and halving; None for none."""
    if relaxed(core, one, 1) == core:
        return None
    high = 1
    while step.possible(relaxed(core, one, high)) is not True:
        high *= 2
        if high > most_mm:
            return None
    low = high // 2
    while high - low > 1:
        middle = (low + high) // 2
        if step.possible(relaxed(core, one, middle)) is True:
            high = middle
        else:
            low = middle
    return high


def _easing_text(one: Requirement) -> str:
    words = {
        "gap": "boxes nearer to one another",
        "headroom": f"more height above {one.about[0]}" if one.about else "",
        "place": f"a wider range for {one.about[0]}" if one.about else "",
        "plugs": f"less plug room at {one.about[0]}" if one.about else "",
        "keep-out": f"{one.about[1]} smaller on each side" if len(one.about) > 1 else "",
    }
    return words.get(one.kind, one.text)
