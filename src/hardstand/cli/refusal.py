"""What a command cannot do, as one sentence, what to do about it, and the exit status."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import SequenceMatcher

CLEAR, NO_GO, UNREADABLE, USAGE = 0, 1, 2, 3
_LIKE, _WORSE = 0.6, 0.12


class Refusal(Exception):  # noqa: N818 it is an answer to a person, not a fault
    """A command's plain "no": `what` is wrong, `hint` what to do, `status` the exit status."""

    def __init__(self, what: str, hint: str = "", status: int = USAGE) -> None:
        self.what, self.hint, self.status = what, hint, status
        super().__init__(what)


def near_names(word: str, known: Iterable[str], most: int = 3) -> list[str]:
    """The known names nearest to a mistyped one, best first; none much worse than the best.

    Names that hold the word come before names that only look alike.

    >>> near_names("box-gap", ["fit.box-gap", "fit.tray-edge"])
    ['fit.box-gap']
    >>> near_names("chek", ["check", "schema", "show"])
    ['check']
    """
    wanted = word.lower()
    names = sorted(set(known))
    holding = [name for name in names if wanted and wanted in name.lower()]
    likeness = {name: SequenceMatcher(None, wanted, name.lower()).ratio() for name in names}
    best = max(likeness.values(), default=0.0)
    alike = [name for name in names if likeness[name] >= max(_LIKE, best - _WORSE)]
    alike.sort(key=lambda name: -likeness[name])
    return list(dict.fromkeys([*holding[:most], *alike]))[:most]


def did_you_mean(word: str, known: Iterable[str], otherwise: str = "") -> str:
    """A hint with the nearest names, or another where none is near.

    >>> did_you_mean("chek", ["check", "show"])
    'Did you mean check?'
    """
    near = near_names(word, known)
    return f"Did you mean {one_of(near)}?" if near else otherwise


def one_of(names: Iterable[str]) -> str:
    """Names to choose from, in words.

    >>> one_of(["a", "b", "c"])
    'a, b or c'
    """
    *rest, last = names
    return f"{', '.join(rest)} or {last}" if rest else last
