"""Checks turned into findings: judged, grouped, with a way out or the measurement that decides."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from typing import Any

from hardstand.engines.fit.model import Check, Checks
from hardstand.engines.fit.wording import decides, sentence
from hardstand.figures import Figure
from hardstand.findings import SEVERITIES, Finding, Limit, Outcome, Remedy, Severity, judge

# What is worst comes first: of several rules that two rows break, the first one speaks.
NO_GO = (
    "hot-gap",
    "moving-gap",
    "fuel-gap",
    "box-gap",
    "tub-gap",
    "structure-gap",
    "bay-gap",
    "height",
    "tray-edge",
    "plug-room",
)
NOTES = ("gyro-centreline",)


def severity_of(slug: str, outcome: Outcome) -> Severity:
    """How bad it is: hard clearances are no-go, wishes notes, the rest cautions; between, measure."""
    if outcome == "between":
        return "measure"
    if slug in NO_GO:
        return "no-go"
    return "note" if slug in NOTES else "caution"


def check_findings(
    result: Checks,
    limits: Mapping[str, Limit],
    names: Mapping[str, str],
    group: Any,
    remedies: Mapping[frozenset[str], Remedy],
) -> list[Finding]:
    """One finding for each group of checks that do not pass: the worst of the group.

    `remedies` by the two rows that they concern.
    `group(check)` gives what makes checks speak as one, such as the pair of rows they are about.
    """
    worst: dict[Hashable, tuple[tuple[Any, ...], Check, Outcome]] = {}
    u = result.figures.u
    for k, check in enumerate(result.checks):
        limit = limits[check.limit_id]
        value = float(result.figures.values[k])
        outcome = judge(value, float(u[k]), limit)
        if outcome == "inside":
            continue
        severity = severity_of(check.slug, outcome)
        rank = NO_GO.index(check.slug) if check.slug in NO_GO else len(NO_GO)
        spare = value - limit.low if limit.low is not None else (limit.high or 0.0) - value
        key = (SEVERITIES.index(severity), rank, spare, check.address)
        name = group(check)
        if name not in worst or key < worst[name][0]:
            worst[name] = (key, check, outcome)
    return [
        _finding(check, outcome, result.figures.figure(check.address), limits, names, remedies)
        for _, check, outcome in worst.values()
    ]


def _finding(
    check: Check,
    outcome: Outcome,
    figure: Figure,
    limits: Mapping[str, Limit],
    names: Mapping[str, str],
    remedies: Mapping[frozenset[str], Remedy],
) -> Finding:
    limit = limits[check.limit_id]
    text = sentence(check, figure, limit, names)
    if limit.target:
        text += " (a target, judged on the value alone)"
    text = f"{capital(text)}."
    if outcome == "between":
        text += f" {decides(figure, names)}"
    remedy = remedies.get(frozenset(check.about)) if outcome == "outside" else None
    return Finding(
        f"fit.{check.slug}",
        severity_of(check.slug, outcome),
        check.about,
        text,
        figure,
        limit,
        remedy,
    )


def capital(text: str) -> str:
    """A sentence with its first letter large, unless it begins with a name, which stays as it is.

    >>> capital("the plugs at the front of rx"), capital("rx and hub")
    ('The plugs at the front of rx', 'rx and hub')
    """
    own = text.startswith(("the ", "on its way ", "aerial "))
    return text[0].upper() + text[1:] if own else text


def by_pair(check: Check) -> Hashable:
    """Checks on the same two rows speak as one."""
    return frozenset(check.about)


def by_rule_and_pair(check: Check) -> Hashable:
    """Each rule speaks for itself about each pair."""
    return (check.slug, check.about)


def by_rule_and_first(check: Check) -> Hashable:
    """Each rule speaks once about each row, of its worst case."""
    return (check.slug, check.about[0])


def by_pairs_of(owner: Mapping[str, str]) -> Any:
    """Each rule speaks once about each row, but aerials' distance once for each two receivers."""

    def group(check: Check) -> Hashable:
        if check.slug == "aerial-apart":
            return (check.slug, frozenset(owner[one] for one in check.about))
        return by_rule_and_first(check)

    return group
