"""What is asked of a plan of channels, and what comes of it, as frozen values."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from hardstand.changes import AnyChange
    from hardstand.findings import Finding


class NoSuchNameError(ValueError):
    """A name that is to be kept or parted belongs to nothing that is plugged in; `known` are those that do."""

    def __init__(self, name: str, known: tuple[str, ...]) -> None:
        super().__init__(f"{name} is no channel, lead or item that an output is plugged to")
        self.name, self.known = name, known


@dataclass(frozen=True, slots=True)
class Request:
    """What is asked: what stays where it is, which branches get outputs of their own, and how to count.

    `anew`: changes count last, not right after single failures.
    """

    keep: tuple[str, ...] = ()
    split: tuple[str, ...] = ()
    anew: bool = False
    seed: int = 1


@dataclass(frozen=True)
class Checked:
    """What all stages say: new findings and those gone, the single failures that the harness counts."""

    new: tuple[Finding, ...]
    gone: tuple[Finding, ...]
    takes_before: Mapping[str, tuple[str, ...]]
    takes_after: Mapping[str, tuple[str, ...]]

    @property
    def bad(self) -> tuple[Finding, ...]:
        """New no-gos of a code of which there are more than before; one that takes another's place is none.

        Of single failures it counts how many things fail so, since one finding names several.
        """
        rise: Counter[str] = Counter()
        for way, some in ((1, self.new), (-1, self.gone)):
            for one in some:
                if one.severity == "no-go":
                    many = one.code.endswith(".single-failure")
                    rise[one.code] += way * (len(one.about) if many else 1)
        return tuple(one for one in self.new if one.severity == "no-go" and rise[one.code] > 0)

    @property
    def passed(self) -> bool:
        """Nothing bad, and no more single failures than before, those of pitch for themselves too."""
        before, after = self.takes_before.values(), self.takes_after.values()
        return not self.bad and (
            sum(map(len, after)) <= sum(map(len, before))
            and sum("pitch" in one for one in after) <= sum("pitch" in one for one in before)
        )

    def as_json(self) -> dict[str, Any]:
        """The check as plain data."""
        return {
            "passed": self.passed,
            "new": [one.as_json() for one in self.new],
            "gone": [one.as_json() for one in self.gone],
            "takes_before": {one: list(axes) for one, axes in self.takes_before.items()},
            "takes_after": {one: list(axes) for one, axes in self.takes_after.items()},
        }


@dataclass(frozen=True)
class Outcome:
    """What came of it: the JSON form, and the changes that make the plan (none where there is none)."""

    form: dict[str, Any]
    changes: tuple[AnyChange, ...]
    found: bool
    passed: bool
