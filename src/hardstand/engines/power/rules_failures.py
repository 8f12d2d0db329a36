"""Single failures that take too much, and those that nobody would notice."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from hardstand.engines.harness.model import ChannelPlan
from hardstand.engines.power.model import FailureRow, Failures, PowerNetwork
from hardstand.findings import Finding, Severity

STOP = {"throttle", "engine-aux"}
_KINDS = {"open": "open", "short": "shorted", "stuck": "stuck"}


def failure_findings(
    power: PowerNetwork, failed: Failures, plan: ChannelPlan
) -> Iterator[Finding]:
    """Failures with the same loss in one finding; what the harness has told of is left out."""
    groups: dict[tuple[tuple[str, ...], str], list[FailureRow]] = {}
    already = set(failed.none.lost)
    for row in failed.rows:
        taken = tuple(name for name in _taken(power, failed, row) if name not in already)
        if taken and row.within not in plan.takes and row.element not in plan.takes:
            groups.setdefault((taken, row.kind), []).append(row)
    for (taken, kind), rows in groups.items():
        about = tuple(dict.fromkeys(one.within for one in rows))
        severity: Severity = "caution" if taken == ("roll",) else "no-go"
        lowest = min(rows, key=lambda one: one.low_v)
        what = " and ".join("the ways to stop the turbine" if one == "stop" else one for one in taken)
        fall = f": {lowest.low_rail} falls to {lowest.low_v:.2f} V" if lowest.low_rail else ""
        yield Finding("power.single-failure", severity, about,
                      f"{_listed(about)} {_KINDS[kind]} takes {what}{fall}. Give the surfaces two "
                      "supplies, or a fuse or limiter to what can pull the rail down.")  # fmt: skip
    yield from _silent(failed, power)


def _taken(power: PowerNetwork, failed: Failures, row: FailureRow) -> list[str]:
    found: list[str] = [name for name in ("pitch", "roll") if name in row.lost]
    ways = STOP & set(failed.functions)
    units = {one.item for one in power.consumers if one.kind == "turbine-controller"}
    runs_on = units and not units & set(row.dead)
    if not found and len(ways) > 1 and ways <= set(row.lost) and runs_on:
        found.append("stop")
    return found


def _silent(failed: Failures, power: PowerNetwork) -> Iterator[Finding]:
    for rail, panel in failed.watched.items():
        packs = next(packs for packs, fed in power.groups if rail in fed)
        rows = [one for one in failed.rows if one.silent and set(one.out) & set(packs)]
        if not rows:
            continue
        names = list(dict.fromkeys(one.within for one in rows))
        each = " alone, then on ".join(packs)
        look = f" {panel} shows it to whoever looks." if panel else " Nothing aboard shows it."
        yield Finding("power.silent-redundancy", "note" if panel else "caution",
                      (rail.partition(".")[0],),
                      f"{_listed(names)} may fail, and {rail} goes on as before with one pack less."
                      f"{look} Before the first flight of a day switch on with {each} alone.")


def _listed(names: Iterable[str]) -> str:
    known = list(names)
    if len(known) > 6:
        return f"Any one of {', '.join(known[:6])} and {len(known) - 6} more"
    return f"Any one of {', '.join(known)}" if len(known) > 1 else known[0]
