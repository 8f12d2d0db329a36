"""The plan of channels found anew: which output feeds and commands what, and what the engines say to it.

From a workspace to a plan and back to changes. The solver is never its own judge: the plan is laid
over the description, and harness, power and all other stages assess it as they assess any aeroplane.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from hardstand.changes import AnyChange, change_as_json
from hardstand.channel_plan_form import plan_form
from hardstand.channel_plan_value import Checked, NoSuchNameError, Outcome, Request
from hardstand.engines.harness import planning
from hardstand.engines.harness.planning.cost import evaluate, present
from hardstand.engines.harness.planning.problem import ANEW, LEVELS, Level

if TYPE_CHECKING:
    from hardstand.assessment import Assessment, Memory
    from hardstand.findings import Finding
    from hardstand.workspace import Workspace

TRIES = 5  # so often a plan is sought anew after one failed its assessment
Tell = Callable[[str], None]


def plan_channels(workspace: Workspace, request: Request, tell: Tell = lambda _: None) -> Outcome:
    """Find the best plan for an aeroplane and have it assessed; nothing is written.

    A plan with a new no-go teaches which unit is to carry less, and another is sought, a counted
    number of times. `tell` hears what is being done. Raises NoSuchNameError, and NotWritableError
    where an option holds what would have to be taken out. The same request on the same description
    gives the same plan.
    """
    from hardstand.assessment import Memory

    memory = Memory()
    asbuilt = workspace.as_built()
    tell("reading the aeroplane")
    before = _assessed(asbuilt, memory)
    net = before.results["harness.netlist"]
    made = planning.translate(asbuilt, net, asbuilt.limits, request.keep, request.split)
    _known(made, (*request.keep, *request.split))
    order = ANEW if request.anew else LEVELS
    tried, failed = _passing(workspace, before, made, order, request.seed, memory, tell)
    tell("looking for what cannot be had, and why")
    form = {
        "format": 1, "aeroplane": asbuilt.aeroplane.name, "options": list(workspace.options),
        "keep": list(request.keep), "split": list(request.split), "anew": request.anew,
        **plan_form(made, tried.made, tried.answer, order), "failed_before": failed,
        "changes": [change_as_json(one) for one in tried.changes],
        "checked": None if tried.checked is None else tried.checked.as_json(),
    }  # fmt: skip
    passed = tried.checked is not None and tried.checked.passed
    return Outcome(form, tried.changes, tried.answer.plan is not None, passed)


def _passing(
    workspace: Workspace, before: Assessment, made: planning.Translation, order: tuple[Level, ...],
    seed: int, memory: Memory, tell: Tell,
) -> tuple[_Tried, list[str]]:  # fmt: skip
    """The best plan that passes, and why better ones did not; the best of all where none does."""
    at_most = evaluate(made.problem, present(made.problem)).failures
    failed: list[str] = []
    first = tried = _tried(workspace, before, made, order, seed, memory, tell)
    for _ in range(TRIES - 1):
        lighter = None
        if tried.answer.plan is not None and tried.bad:
            lighter = planning.lighter(tried.made, tried.answer.plan, tried.bad)
        if lighter is None:
            break
        failed += [f"{one.code}: {one.text}" for one in tried.bad]
        tried = _tried(workspace, before, lighter, order, seed, memory, tell)
        if tried.answer.cost is None or tried.answer.cost.failures > at_most:
            break  # what was learned leaves no plan that is worth it
    passed = tried.checked is not None and tried.checked.passed
    return (tried, failed) if passed else (first, [])


@dataclass(frozen=True)
class _Tried:
    """A problem, its best plan, and what the stages say to that."""

    made: planning.Translation
    answer: planning.Answer
    changes: tuple[AnyChange, ...] = ()
    checked: Checked | None = None

    @property
    def bad(self) -> tuple[Finding, ...]:
        """What forbids the plan."""
        return () if self.checked is None else self.checked.bad


def _tried(
    workspace: Workspace, before: Assessment, made: planning.Translation, order: tuple[Level, ...],
    seed: int, memory: Memory, tell: Tell,
) -> _Tried:  # fmt: skip
    tell("looking for the best plan")
    answer = planning.solve(made.problem, order, seed)
    if answer.plan is None:
        return _Tried(made, answer)
    tell("assessing the plan")
    changes = planning.changes(made, answer.plan)
    return _Tried(made, answer, changes, _checked(workspace, before, changes, memory))


def _known(made: planning.Translation, names: Sequence[str]) -> None:
    known = {name for plug in made.plugs for name in (*plug.leads, *plug.items)}
    known |= {one for one, plugs in made.has.items() if plugs}
    for name in names:
        if name not in known:
            raise NoSuchNameError(name, tuple(sorted(known)))


def _assessed(asbuilt: Any, memory: Memory) -> Assessment:
    from hardstand.assessment import assess
    from hardstand.stages import stages

    return assess(asbuilt, stages(), memory)


def _checked(
    workspace: Workspace, before: Assessment, changes: Sequence[AnyChange], memory: Memory
) -> Checked:
    """The verdict with the changes made in memory against the verdict as it is."""
    from hardstand.asbuilt import build
    from hardstand.description.read import read_texts

    after = before
    if changes:
        texts = {**workspace.texts, **workspace.tried(changes)}
        read = read_texts(texts, workspace.options)
        after = _assessed(build(read.description, read.set_aside), memory)
    known, later = ({_key(one) for one in some.findings} for some in (before, after))
    return Checked(
        tuple(one for one in after.findings if _key(one) not in known),
        tuple(one for one in before.findings if _key(one) not in later),
        before.results["harness.channels"].takes, after.results["harness.channels"].takes,
    )  # fmt: skip


def _key(finding: Finding) -> tuple[str, str, frozenset[str]]:
    return finding.code, finding.severity, frozenset(finding.about)
