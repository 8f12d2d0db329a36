"""A plan as changes to the description: where leads end, where channels come out, their numbers."""

from __future__ import annotations

from typing import Any

from hardstand.changes import Change
from hardstand.engines.harness.model import Netlist
from hardstand.engines.harness.planning.grouping import numbers
from hardstand.engines.harness.planning.plugged import Plugged
from hardstand.engines.harness.planning.problem import Plan
from hardstand.engines.harness.planning.translation import Translation
from hardstand.engines.harness.rules_channels import at_change
from hardstand.engines.harness.saying import change, side_of


def changes(made: Translation, plan: Plan) -> tuple[Change, ...]:
    """Everything that has to be altered for a plan; nothing where it stands as it is."""
    ends = ends_of(made, plan)
    found: list[Change] = []
    for plug, end in zip(made.plugs, ends, strict=True):
        if end != plug.end:
            found += [change(made.net.leads[lead].row, side_of(made.net, lead, plug.end), end)
                      for lead in plug.leads]  # fmt: skip
    found += _parted(made.net, made.plugs, ends)
    for one in made.channels:
        at = _at(made, one.id, one.at, ends)
        if at != list(one.at):
            found.append(at_change(one, at))
    new = numbers(made.channels)
    old: dict[str, Any] = {one.id: one.number for one in made.channels}
    return (*found, *(Change(f"channel.{one}.number", old[one], n) for one, n in new.items()))


def ends_of(made: Translation, plan: Plan) -> list[str]:
    """The output of each plug under a plan."""
    return [made.problem.places[c].ends[n] for c, n in plan]


def _parted(net: Netlist, plugs: tuple[Plugged, ...], ends: list[str]) -> list[Change]:
    """Branches that no longer share the plug of the lead that they branched from."""
    where = {lead: end for plug, end in zip(plugs, ends, strict=True) for lead in plug.leads}
    rows = [net.leads[lead].row for lead in where]
    return [change(row, "branch_of", None) for row in rows
            if row.branch_of in where and where[row.branch_of or ""] != where[row.id]]  # fmt: skip


def _at(made: Translation, channel: str, at: tuple[str, ...], ends: list[str]) -> list[str]:
    """Where a channel comes out: at the outputs of its plugs, and at others that hold no plug."""
    now = {plug.end for plug in made.plugs}
    taken = set(ends)
    mine = made.has[channel]
    order = sorted(mine, key=lambda p: at.index(made.plugs[p].end) if made.plugs[p].end in at else len(at))
    kept = [] if mine else [one for one in at if one not in now and one not in taken]
    return list(dict.fromkeys([*(ends[p] for p in order), *kept]))
