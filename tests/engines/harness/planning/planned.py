"""Aeroplanes whose plugs are put elsewhere, and the plan that is found for them, on the harness alone."""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import Assessment, Memory, assess
from hardstand.changes import AnyChange, Change
from hardstand.cli.begin import demo_texts
from hardstand.description.storage import Folder
from hardstand.engines.harness import STAGE, planning
from hardstand.engines.harness.planning.cost import taken
from hardstand.engines.harness.planning.problem import LEVELS, Level, Plan
from hardstand.workspace import Workspace, opened

Texts = Mapping[str, str]
# What a plan decides, without the routes of the leads.
_ROUTED = ("harness.routes", "harness.making", "harness.findings", "harness.lengths")
CIRCUIT = replace(STAGE, nodes=tuple(
    replace(one, name="harness.findings") if one.name == "harness.circuit-findings" else one
    for one in STAGE.nodes if one.name not in _ROUTED))  # fmt: skip
MEMORY = Memory(200)


@cache
def demo() -> Texts:
    """The demo as built."""
    return demo_texts("as-built")


def workspace(texts: Texts, options: Sequence[str] = ()) -> Workspace:
    """Texts as a folder that is nowhere: it can be read and tried, not written."""
    return opened(Folder(Path("nowhere")), texts, options)


@dataclass(frozen=True)
class Planned:
    """A workspace with its assessment by the harness, its problem, and the best plan."""

    workspace: Workspace
    asbuilt: AsBuilt
    before: Assessment
    made: planning.Translation
    answer: planning.Answer

    @property
    def plan(self) -> Plan:
        """The plan, which is there."""
        assert self.answer.plan is not None
        return self.answer.plan

    @property
    def ends(self) -> dict[str, str]:
        """Where each first lead is plugged under the plan."""
        return dict(zip((one.id for one in self.made.plugs), planning.ends_of(self.made, self.plan), strict=True))

    def after(self) -> Assessment:
        """What the harness says with the plan laid over."""
        found = self.workspace.tried(planning.changes(self.made, self.plan))
        return harness(workspace({**self.workspace.texts, **found}, self.workspace.options))


def harness(one: Workspace) -> Assessment:
    """The harness alone on an aeroplane."""
    return assess(build(one.read.description, one.read.set_aside), [CIRCUIT], MEMORY)


def planned(texts: Texts, options: Sequence[str] = (), keep: Sequence[str] = (), split: Sequence[str] = (),
            order: tuple[Level, ...] = LEVELS) -> Planned:
    """The best plan for an aeroplane."""
    home = workspace(texts, options)
    asbuilt = build(home.read.description, home.read.set_aside)
    before = assess(asbuilt, [CIRCUIT], MEMORY)
    made = planning.translate(asbuilt, before.results["harness.netlist"], asbuilt.limits, keep, split)
    return Planned(home, asbuilt, before, made, planning.solve(made.problem, order))


def scrambled(texts: Texts, options: Sequence[str], units: Sequence[str], seed: int, *,
              channels: bool = True) -> Texts:
    """The plugs of some units at their outputs in a random order, channels with them unless not wanted."""
    home = workspace(texts, options)
    asbuilt = build(home.read.description, home.read.set_aside)
    ends = [f"{item.id}.{port.name}" for item in asbuilt.items if item.id in units
            for port in item.ports if port.name.startswith("out-")]  # fmt: skip
    new = dict(zip(ends, random.Random(seed).sample(ends, len(ends)), strict=True))  # noqa: S311 a shuffle
    changes: list[AnyChange] = [
        Change(f"lead.{one.id}.from", one.from_, new[one.from_]) for one in asbuilt.leads if one.from_ in new
    ]
    if channels:
        changes += [Change(f"channel.{one.id}.at", list(one.at), [new.get(end, end) for end in one.at])
                    for one in asbuilt.channels if one.at]  # fmt: skip
    return {**texts, **home.tried(changes)}


def axes_taken(made: planning.Translation, plan: Plan) -> dict[str, set[str]]:
    """The whole axes that single failures take by the planner's own count, as the harness names them."""
    found: dict[str, set[str]] = {}
    for f, g in taken(made.problem, plan):
        word, _, rest = made.problem.groups[g].words.partition(" ")
        if word in ("pitch", "roll") and rest == "altogether":
            found.setdefault(made.problem.failures[f].id, set()).add(word)
    return found
