"""What an engine found: one type, one vocabulary of severities, one way of judging a limit.

Severities: *no-go* (it must not fly, or must not be powered, like this), *measure* (only a measurement
can decide), *caution*, *note*. A limit is judged with the expanded uncertainty as ISO 14253-1 does.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Literal

from hardstand.changes import AnyChange, change_as_json

if TYPE_CHECKING:  # a limit can be looked up without the arrays that figures rest on
    from hardstand.figures import Figure

Severity = Literal["no-go", "measure", "caution", "note"]
SEVERITIES: tuple[Severity, ...] = ("no-go", "measure", "caution", "note")
Outcome = Literal["inside", "outside", "between"]


@dataclass(frozen=True, slots=True)
class Limit:
    """A bound on a figure, by name (`fit.box-gap`), with where it comes from.

    `low` and `high` are in `unit`; either may be absent. A `target` is judged on the value alone.
    `by_builder` is set where the aeroplane's file overrides the default, with `reason`.
    """

    id: str
    unit: str
    low: float | None = None
    high: float | None = None
    source: str = "common practice, no source"
    meaning: str = ""
    target: bool = False
    by_builder: bool = False
    reason: str = ""

    def as_json(self) -> dict[str, Any]:
        """The limit as plain data."""
        return {
            "id": self.id,
            "unit": self.unit,
            "low": self.low,
            "high": self.high,
            "u": 0.0,
            "kind": "declared" if self.by_builder else "default",
            "source": self.source,
            "reason": self.reason,
            "value": self.low if self.high is None else self.high,
        }


def judge(value: float, u: float, limit: Limit) -> Outcome:
    """Judge a value against a limit with U = 2u: inside, outside, or between (only measuring decides).

    Inside means inside by more than U of every bound the limit has; outside, beyond one by more than
    U. A value exactly at its limit with no uncertainty is inside. Targets are judged on the value.
    Source: ISO 14253-1, decision rules.

    >>> gap = Limit("fit.box-gap", "mm", low=2.0)
    >>> judge(3.0, 0.2, gap), judge(2.1, 0.2, gap), judge(1.5, 0.2, gap)
    ('inside', 'between', 'outside')
    """
    expanded = 0.0 if limit.target else 2.0 * u
    margins = [value - limit.low] if limit.low is not None else []
    margins += [limit.high - value] if limit.high is not None else []
    if any(margin < -expanded for margin in margins):
        return "outside"
    return "inside" if all(margin >= expanded for margin in margins) else "between"


@dataclass(frozen=True, slots=True)
class Remedy:
    """A computed way out: a sentence, the changes that make it, and what they cost elsewhere."""

    text: str
    changes: tuple[AnyChange, ...] = ()
    effects: tuple[str, ...] = ()

    def as_json(self) -> dict[str, Any]:
        """The remedy as plain data, changes by address."""
        return {
            "text": self.text,
            "changes": [change_as_json(one) for one in self.changes],
            "effects": list(self.effects),
        }


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing an engine has to say about the aeroplane.

    `code` is `stage.slug`; `about` the ids concerned; `text` one sentence with the figure and why it
    matters; `figure` and `limit` the numbers behind it; `accepted` the reason where the builder took
    it on (it is then lowered, never hidden).
    """

    code: str
    severity: Severity
    about: tuple[str, ...]
    text: str
    figure: Figure | None = None
    limit: Limit | None = None
    remedy: Remedy | None = None
    accepted: str = ""

    @property
    def stage(self) -> str:
        """The stage (engine) that speaks: the part of the code before the point."""
        return self.code.partition(".")[0]

    def as_json(self) -> dict[str, Any]:
        """The finding as plain data: the stable form of `check --json`."""
        return {
            "code": self.code,
            "severity": self.severity,
            "about": list(self.about),
            "text": self.text,
            "figure": self.figure.as_json() if self.figure else None,
            "limit": self.limit.as_json() if self.limit else None,
            "remedy": self.remedy.as_json() if self.remedy else None,
            "accepted": self.accepted or None,
        }

    def accepted_by(self, name: str, reason: str) -> Finding:
        """The same finding taken on by a person: a no-go is lowered to a caution, all else stays.

        >>> Finding("fit.x", "no-go", ("a",), "Touches.").accepted_by("owner", "trial fit").severity
        'caution'
        """
        lowered: Severity = "caution" if self.severity == "no-go" else self.severity
        return replace(self, severity=lowered, accepted=f"{reason} ({name})")


@dataclass(frozen=True, slots=True)
class Rule:
    """What `hardstand explain CODE` says: the rule in words, its formula, limit and source."""

    code: str
    title: str
    why: str
    formula: str
    source: str
    limit: str = ""
    acceptable: bool = False


def worst_first(findings: list[Finding]) -> list[Finding]:
    """Order findings by severity, then code, then the ids they are about: the order of every view."""
    return sorted(findings, key=lambda one: (SEVERITIES.index(one.severity), one.code, one.about))
