"""How far a piece of long work is, as one frozen value that pages show."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal

from hardstand.description.problems import Problem

if TYPE_CHECKING:
    from hardstand.workbench.bench import Held

Phase = Literal["none", "working", "done", "failed"]
Tell = Callable[[str], None]
Task = Callable[[Mapping[str, Any], Tell, Callable[[], bool]], dict[str, Any]]


class AtWorkError(RuntimeError):
    """Work of this kind is being done already."""


class NothingFoundError(LookupError):
    """A task has nothing to give; the message says why in a sentence."""


@dataclass(frozen=True)
class Standing:
    """One piece of work: `number` names it among those of its kind, 0 before the first.

    `about` is the aeroplane that it rests on, `asked` what was asked of it; `told` are its latest
    words with the seconds after its beginning; `result` is plain data once it is done. `problems` or
    `trouble` say why it failed.
    """

    number: int = 0
    phase: Phase = "none"
    about: Held | None = None
    asked: Mapping[str, Any] = field(default_factory=dict)
    told: tuple[tuple[float, str], ...] = ()
    seconds: float = 0.0
    stopping: bool = False
    result: Mapping[str, Any] | None = None
    problems: tuple[Problem, ...] = ()
    trouble: str = ""

    @property
    def words(self) -> str:
        """What it is doing now."""
        return self.told[-1][1] if self.told else "beginning"


def elapsed(seconds: float) -> str:
    """Time as minutes and seconds.

    >>> elapsed(7.9), elapsed(125.0)
    ('0:07', '2:05')
    """
    return f"{int(seconds) // 60}:{int(seconds) % 60:02d}"
