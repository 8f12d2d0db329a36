"""Where everything aboard could stand better: layouts found, and each checked in three dimensions.

From a workspace to layouts and back to changes. A layout that fails the checks that every aeroplane
gets teaches what to ask for more, and the search is made again, a counted number of times; what still
fails is never given as a layout.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from hardstand.changes import AnyChange, Change
from hardstand.engines.fit import placement as room
from hardstand.engines.fit.layout import Answer, Contradiction, contradiction, solve
from hardstand.engines.fit.layout.cost import evaluate, faults
from hardstand.engines.fit.layout.improving import Effort, effort_for
from hardstand.engines.fit.layout.problem import Layout
from hardstand.engines.fit.layout.solve import Guide
from hardstand.engines.fit.placement.prices import lead_mm
from hardstand.placement_value import Checked, Found, Outcome, Request
from hardstand.workspace import Workspace

if TYPE_CHECKING:
    from hardstand.asbuilt import AsBuilt
    from hardstand.asbuilt.value import PlacedItem
    from hardstand.assessment import Assessment, Memory
    from hardstand.engines.fit.layout.solve import Progress
    from hardstand.findings import Finding

TRIES = 4  # so often a layout is sought anew after one failed in three dimensions
ROAMS_MM = 80.0
FEW, NODES = 8, 40  # up to so many free items one piece of work is short as it is
Tell = Callable[[str], None]
Never: Callable[[], bool] = lambda: False  # noqa: E731


def place(
    workspace: Workspace, request: Request, tell: Tell = lambda _: None,
    cancelled: Callable[[], bool] = Never,
) -> Outcome:  # fmt: skip
    """Find layouts for an aeroplane as a request asks for them.

    tell hears what is being done, with bound and gap; cancelled ends the search with the best so
    far. Raises NotFreeError where an item is asked to move that cannot. The same request on the same
    description gives the same outcome unless it was cut off by the clock or by hand.
    """
    return _Run(workspace, request, tell, cancelled).outcome()


def movable(asbuilt: AsBuilt) -> tuple[tuple[PlacedItem, ...], dict[str, str]]:
    """The items that may move where nothing else is asked, and the others on trays with the reason by id."""
    free, held = room.freedoms(asbuilt)
    return tuple(one.item for one in free), held


@dataclass
class _Run:
    """One request at work."""

    workspace: Workspace
    request: Request
    tell: Tell
    asked_to_stop: Callable[[], bool]
    memory: Memory = field(init=False)
    ends: float = field(init=False)

    def __post_init__(self) -> None:
        from hardstand.assessment import Memory

        self.memory = Memory()
        self.ends = time.monotonic() + self.request.seconds

    def stop(self) -> bool:
        """Whether the clock or a hand wants an end."""
        return self.asked_to_stop() or time.monotonic() > self.ends

    def outcome(self) -> Outcome:
        """Translate, solve, check; again with what was learned where the check fails."""
        self.asbuilt = self.workspace.as_built()
        self.tell("reading the aeroplane")
        self.before = self.assessed(self.asbuilt)
        free, held = room.freedoms(self.asbuilt, self.request.free)
        self.free = {one.item.id: one for one in free}
        lessons, failed, found = room.Lessons(), list[str](), list[Found]()
        for tries in range(1, TRIES + 1):
            made = self.translated(lessons)
            answer, before = self.solved(made), found
            if answer.layout is None and before:
                found = before  # what was learned leaves no room: the last one is told, as refused
                answer = replace(answer, ending="unknown")
                break
            found = [self.found(made, answer.layout, tries)] if answer.layout else []
            clashes = list(found[0].checked.clashes) if found else []
            if not clashes or self.stop():
                break
            failed += [f"{one.code}: {one.text}" for one in clashes]
            lessons = room.learned(lessons, clashes, tuple(self.free))
        why = self.why_not(made) if answer.ending == "infeasible" else None
        if found and found[0].checked.passed and self.request.alternatives > 1:
            found = self.others(made, answer, found[0])
        return self.told(made, answer, found, held, why, tuple(failed))

    def assessed(self, asbuilt: AsBuilt) -> Assessment:
        """Every stage over an aeroplane, remembering what does not change."""
        from hardstand.assessment import assess
        from hardstand.stages import stages

        return assess(asbuilt, stages(), self.memory)

    def translated(self, lessons: room.Lessons) -> room.Translation:
        """The aeroplane as a layout problem."""
        self.tell("drawing what is in the way")
        results = self.before.results
        return room.translate(
            self.asbuilt, results["fit.solids"], results.get("balance.headline"),
            tuple(self.free.values()), lessons,
        )  # fmt: skip

    def solved(self, made: room.Translation) -> Answer:
        """The best layout that the work allows."""
        self.tell("looking for a first layout")
        return solve(
            made.problem, self.request.seed, self.request.work,
            max(0.0, self.ends - time.monotonic()), self.heard, self.stop,
            guide=Guide(made.start, _effort(len(self.free)), NODES),
        )  # fmt: skip

    def heard(self, progress: Progress) -> None:
        """Tell how far the search is."""
        if progress.cost is None:
            return
        cost, bound = lead_mm(progress.cost), lead_mm(progress.bound)
        share = f", gap {100.0 * (cost - bound) / cost:.1f} %" if cost and bound else ""
        self.tell(f"layout of {cost:.0f} mm, none under {bound:.0f} mm{share}")

    def why_not(self, made: room.Translation) -> Contradiction | None:
        """What contradicts what, where there is no layout."""
        self.tell("looking for what contradicts what")
        return contradiction(made.problem, self.request.seed, stop=self.stop)

    def found(self, made: room.Translation, layout: Layout, tries: int) -> Found:
        """A layout with its changes, checked in three dimensions."""
        self.tell("checking it in three dimensions")
        places = room.places(made.shapes, layout)
        changes = tuple(one for place in places if place.moved for one in self.changes(place))
        checked, after, asbuilt = self.checked(changes, tries)
        short = room.short_leads(asbuilt, after.results["fit.solids"].frames)
        known = {one.lead for one in self.short_before()}
        return Found(
            places, changes, room.breakdown(made, layout),
            lead_mm(evaluate(made.problem, layout).total), room.cg_mm(made, layout),
            room.bindings(made.problem, layout), checked,
            tuple(one for one in short if one.lead not in known),
        )  # fmt: skip

    def short_before(self) -> tuple[room.Short, ...]:
        """The leads that do not reach as it is."""
        return room.short_leads(self.asbuilt, self.before.results["fit.solids"].frames)

    def changes(self, place: room.Place) -> list[Change]:
        """A place as changes to the description."""
        new: dict[str, Any] = {"at_mm": [round(one) for one in place.at_mm]}
        if place.turn_deg != place.was_turn_deg % 360.0:
            new["turn_deg"] = round(place.turn_deg)
        if place.tray != place.was_tray:
            new["on"] = place.tray
        address = f"item.{place.item}"
        return [
            Change(f"{address}.{name}", self.workspace.value_at(f"{address}.{name}"), value)
            for name, value in new.items()
        ]

    def checked(
        self, changes: Sequence[AnyChange], tries: int
    ) -> tuple[Checked, Assessment, AsBuilt]:
        """The verdict with changes made in memory against the verdict as it is."""
        from hardstand.asbuilt import build
        from hardstand.description.read import read_texts

        texts = {**self.workspace.texts, **self.workspace.tried(changes)}
        asbuilt = build(read_texts(texts, self.workspace.options).description)
        after = self.assessed(asbuilt)
        known = {_key(one) for one in self.before.findings}
        later = {_key(one) for one in after.findings}
        new = tuple(one for one in after.findings if _key(one) not in known)
        gone = tuple(one for one in self.before.findings if _key(one) not in later)
        clashes = tuple(one for one in after.findings if self.clashes(one, new=one in new))
        return Checked(tries, new, gone, clashes), after, asbuilt

    def clashes(self, finding: Finding, *, new: bool) -> bool:
        """Whether a finding of the fit forbids a layout, or leaves it to be measured."""
        ours = finding.code.startswith("fit.") and any(one in self.free for one in finding.about)
        if not ours or finding.figure is None:
            return False
        return finding.severity == "no-go" or (finding.severity == "measure" and new)

    def others(self, made: room.Translation, answer: Answer, first: Found) -> list[Found]:
        """Layouts that differ truly from the best and from one another, and pass the checks."""
        self.tell("looking for layouts that differ")
        assert answer.layout is not None  # the first is that layout
        roaming = [one for one, free in self.free.items() if _roams(free, self.asbuilt)]
        wanted = self.request.alternatives - 1
        more = room.differing(
            made.problem, answer.layout, wanted + 2, roaming, self.request.seed, self.stop
        )
        found = [first]
        for one in more:
            other = self.found(made, one.layout, 1)
            if other.checked.passed and len(found) < self.request.alternatives:
                found.append(other.with_elsewhere(one.elsewhere))
        return found

    def told(
        self, made: room.Translation, answer: Answer, found: list[Found], held: dict[str, str],
        why: Contradiction | None, failed: tuple[str, ...],
    ) -> Outcome:  # fmt: skip
        """Everything as one value."""
        gap = made.problem.gap_mm
        return Outcome(
            self.asbuilt.aeroplane.name, self.workspace.options, self.request,
            "cancelled" if self.stop() and answer.ending == "work" else answer.ending,
            tuple(found), lead_mm(answer.bound), room.breakdown(made, made.start),
            lead_mm(evaluate(made.problem, made.start).total), room.cg_mm(made, made.start),
            not faults(made.problem, made.start), made.target, held, made.left_out, failed,
            () if why is None else tuple(
                room.requirement_words(one, self.asbuilt, self.free, gap)
                for one in why.requirements
            ),
            () if why is None else tuple(room.easing_words(one, self.asbuilt) for one in why.easings),
            why is None or why.proven,
        )  # fmt: skip


def _effort(free_items: int) -> Effort:
    """What one piece of work does: small, so that a builder sees it get better."""
    steady = effort_for(free_items)
    small = Effort(steps=100 * free_items, repaired=8, kept=1, insertions=10 * free_items)
    return small if free_items > FEW else steady


def _key(finding: Finding) -> tuple[str, str, frozenset[str]]:
    return finding.code, finding.severity, frozenset(finding.about)


def _roams(one: room.Freedom, asbuilt: AsBuilt) -> bool:
    """Whether an item could stand truly elsewhere."""
    if len(one.trays) > 1:
        return True
    if one.x_mm is not None and one.y_mm is not None:
        return max(one.x_mm[1] - one.x_mm[0], one.y_mm[1] - one.y_mm[0]) > ROAMS_MM
    tray = next(row for row in asbuilt.trays if row.id == one.trays[0])
    spans: list[float] = [max(axis) - min(axis) for axis in zip(*tray.outline_mm, strict=True)]
    return bool(max(spans) - min(one.item.size_mm[:2]) > ROAMS_MM)
