"""Changes before they are made, and what they did to the verdict."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.views.finding import severity
from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, indented, line, printable
from hardstand.views.notice import tally, verdict
from hardstand.views.number import value_in_file
from hardstand.views.table import rule


def changes_lines(changes: Sequence[Mapping[str, Any]], places: Sequence[str], measure: int) -> list[Line]:
    """Changes in their JSON form, each with the place it stands at; the new value in the accent.

    >>> from hardstand.views.ink import text_of
    >>> turn = {"address": "item.hub.turn_deg", "old": 0, "new": 90}
    >>> for one in changes_lines([turn], ["aeroplane.toml:12"], 60): print(text_of(one))
    item.hub.turn_deg  aeroplane.toml:12
      0 → 90
    """
    lines: list[Line] = []
    for change, place in zip(changes, places, strict=True):
        lines += flow(line((_title(change), "strong"), ("  " + place if place else "", "quiet")), measure)
        lines += indented(flow(_says(change), measure - 2, hang=2), 2)
    return lines


def _title(change: Mapping[str, Any]) -> str:
    if "address" in change:
        return str(change["address"])
    if "add" in change:
        return f"{change['add']} {change['row'].get('id', '')}"
    return f"{change['remove']} {change['id']}"


def _says(change: Mapping[str, Any]) -> Line:
    if "address" in change:
        old = printable(value_in_file(change["old"]))
        return line(f"{old} → ", (printable(value_in_file(change["new"])), "accent"))
    if "add" in change:
        row = ", ".join(f"{key} = {value_in_file(value)}" for key, value in change["row"].items())
        return line("added: ", (printable(row), "accent"))
    return line(("taken out", "accent"))


def outcome_lines(before: Mapping[str, Any] | None, after: Mapping[str, Any], revision: str,
                  measure: int) -> list[Line]:
    """What a change did: findings that went, findings that came, the verdict before and now."""
    lines: list[Line] = []
    if before is not None:
        gone, came = difference(before, after), difference(after, before)
        stayed = with_other_figures(before, after)
        lines += _listed("No longer there", gone, measure, texts=False) + _listed("New", came, measure)
        lines += _listed("Still there, with other figures", stayed, measure)
        if not gone and not came and not stayed:
            lines += [line("The findings are the same as before."), BLANK]
        lines.append(line(("was  ", "quiet"), tally(before)))
    lines.append(line(("now  ", "quiet"), (tally(after), "strong")))
    lines += [rule(measure, "plain", "━"), *flow(verdict(after), measure, ink="strong")]
    written = f"Written as {revision}; `hardstand undo` takes it back." if revision else ""
    return [*lines, *flow(written, measure, ink="quiet")]


def difference(one: Mapping[str, Any], other: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    """The findings of one assessment's form that another has not."""
    known = {_key(finding) for finding in other["findings"]}
    return [finding for finding in one["findings"] if _key(finding) not in known]


def with_other_figures(before: Mapping[str, Any], after: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    """The findings that stand in both, with another sentence than before."""
    texts = {_key(one): one["text"] for one in before["findings"]}
    return [one for one in after["findings"] if texts.get(_key(one), one["text"]) != one["text"]]


def _key(finding: Mapping[str, Any]) -> tuple[str, str, tuple[str, ...]]:
    return finding["code"], finding["severity"], tuple(finding["about"])


def _listed(title: str, findings: Sequence[Mapping[str, Any]], measure: int,
            *, texts: bool = True) -> list[Line]:
    if not findings:
        return []
    lines = [line((title, "quiet"))]
    for one in findings:
        about = printable(", ".join(one["about"]))
        words = line(*severity(one["severity"]), "  ", (one["code"], "strong"), "  ", about)
        lines += indented(flow(words, measure - 2, hang=2), 2)
        if texts:
            lines += indented(flow(one["text"], measure - 4), 4)
    return [*lines, BLANK]
