"""What a plan gains, what it cannot, and why, in sentences."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hardstand.engines.harness.planning.contradiction import Contradiction, contradiction
from hardstand.engines.harness.planning.cost import faults, present, taken
from hardstand.engines.harness.planning.problem import LEVELS, PAIR, Level, Plan
from hardstand.engines.harness.planning.solve import solve
from hardstand.engines.harness.planning.translation import Translation
from hardstand.engines.harness.planning.wording import helps, names, words
from hardstand.engines.harness.saying import listed


@dataclass(frozen=True, slots=True)
class Left:
    """What each of some failures still takes, which requirements keep it so, and what would help.

    Without requirements it could be had alone: `price` says what it would cost then. `proven`: every
    step to the set was decided, so no smaller part of it would do.
    """

    failures: tuple[str, ...]
    takes: tuple[str, ...]
    requirements: tuple[str, ...]
    price: tuple[str, ...]
    helps: tuple[str, ...]
    proven: bool


def gains(made: Translation, plan: Plan) -> tuple[str, ...]:
    """What the plan makes better than the present one, the weightiest first."""
    now = present(made.problem)
    said = [f"{one}, and would not any more" for one in faults(made.problem, now)]
    freed = _freed(made, now, plan)
    return (*said, *(f"{_alone(by)} {words} no more{f', {_alone(new)} it now' if new else ''}"
                     for by, new, words in freed))  # fmt: skip


def losses(made: Translation, before: Plan, after: Plan) -> tuple[str, ...]:
    """What one plan makes worse than another one."""
    freed = _freed(made, after, before)
    return tuple(f"{_alone(by)} {words} then" for by, _, words in freed)


def _freed(made: Translation, before: Plan, after: Plan) -> list[tuple[list[str], list[str], str]]:
    """What takes a group before and not after; of what one plug moves only where it is fewer."""
    problem = made.problem
    was, now = set(taken(problem, before)), set(taken(problem, after))
    found: list[tuple[list[str], list[str], str]] = []
    for g, group in sorted(enumerate(problem.groups), key=lambda one: -one[1].points):
        old, new = ({f for f, h in some if h == g} for some in (was, now))
        if old - new and (len(group.plugs) > 1 or len(new) < len(old)):
            instead = _ids(made, new - old) if len(group.plugs) == 1 else []
            found.append((_ids(made, old - new), instead, group.words))
    return found


def _alone(by: list[str]) -> str:
    return f"{listed(by)} alone {'takes' if len(by) == 1 else 'take'}"


def _ids(made: Translation, failures: set[int]) -> list[str]:
    return [made.problem.failures[f].id for f in sorted(failures)]


def left(made: Translation, plan: Plan, order: tuple[Level, ...] = LEVELS) -> tuple[Left, ...]:
    """The single failures that still take an axis or both halves of a pair, each with its reason."""
    problem = made.problem
    found: dict[tuple[object, ...], Left] = {}
    for f, g in taken(problem, plan):
        if problem.groups[g].points >= PAIR and len(problem.groups[g].plugs) > 1:
            one = _why(made, plan, f, g, order)
            key = (f, one.requirements, one.price)
            before = found.get(key)
            found[key] = one if before is None else replace(before, takes=(*before.takes, *one.takes))
    alike: dict[tuple[object, ...], Left] = {}
    for one in found.values():
        said = (one.takes, one.requirements, one.price, one.proven)
        before = alike.get(said)
        alike[said] = one if before is None else replace(
            before, failures=(*before.failures, *one.failures), helps=(*before.helps, *one.helps))
    return tuple(alike.values())


def _why(made: Translation, plan: Plan, f: int, g: int, order: tuple[Level, ...]) -> Left:
    problem = made.problem
    failure, group = problem.failures[f], problem.groups[g]
    why = contradiction(problem, [(f, g)])
    if why is None:
        other = solve(problem, order, apart=[(f, g)])
        price = () if other.plan is None else losses(made, plan, other.plan)
        return Left((failure.id,), (group.words,), (), price, (), proven=other.proven)
    rest = [one for one in why.requirements if one[0] != "apart"]
    if not rest:
        which = f" that fits {listed(names(made, group.plugs))}"
        every = len(failure.dead) == len(problem.places)
        said = f"every output{'' if every else which} hangs on it"
        return Left((failure.id,), (group.words,), (said,), (), (helps(made, failure.id),), why.proven)
    return Left((failure.id,), (group.words,), words(made, rest), (), (), why.proven)


def why_none(made: Translation) -> tuple[tuple[str, ...], bool]:
    """Why there is no plan at all: requirements none of which can be left out, and whether proven."""
    why: Contradiction | None = contradiction(made.problem)
    return ((), False) if why is None else (words(made, why.requirements), why.proven)
