"""Nodes of the assessment: a function, the slices of the aeroplane it reads, the results it needs.

A node is given only what it declares; reading anything else raises `UndeclaredReadError`, so that a
result can be remembered by the content of its declared slices alone.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from hardstand.figures import Figure
from hardstand.findings import Rule

Missing = tuple[str, ...]


class UndeclaredReadError(Exception):
    """A node read a slice or a result that it does not declare: a fault of the program."""


class Slices:
    """The slices of an as-built aeroplane that a node declared, as attributes."""

    def __init__(self, source: object, declared: tuple[str, ...], node: str) -> None:
        self._source, self._declared, self._node = source, declared, node

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_") or name not in self._declared:
            raise UndeclaredReadError(f"{self._node} reads {name}, which it does not declare")
        return getattr(self._source, name)


class Earlier:
    """The results that a node declared it needs, by node name."""

    def __init__(self, results: Mapping[str, Any], declared: tuple[str, ...], node: str) -> None:
        self._results, self._declared, self._node = results, declared, node

    def __getitem__(self, name: str) -> Any:
        if name not in self._declared:
            raise UndeclaredReadError(f"{self._node} needs {name}, which it does not declare")
        return self._results[name]


@dataclass(frozen=True)
class Node:
    """One step of an engine. `version` goes up when its method changes what it returns.

    One that `keeps` is also given a `Kept` where there is one, as its third argument, and must do
    without. Where one `settles`, its result is compared with its last one: what needs it is worked out
    again only where they are not equal.
    """

    name: str
    reads: tuple[str, ...]
    needs: tuple[str, ...]
    run: Callable[..., Any]
    version: int = 1
    keeps: bool = False
    settles: bool = False


@dataclass(frozen=True, slots=True)
class Compared:
    """One line of a comparison of options, as a stage gives it for one aeroplane.

    `id` (`stage.slug`) and `label` are the same for every aeroplane. `figure` is None where `note`
    says why there is none; `of` says in words what it is about. `said` are two sentence pieces that
    take an amount, for a greater and for a smaller figure; `step` is a difference that is worth a
    line, in the figure's unit (common practice, no source): differences are ordered by it. Figures
    of one `basis` can be compared; where the aeroplanes' differ, `alike`, on the basis that every
    one of them has, is taken in place of `figure`.
    """

    id: str
    label: str
    figure: Figure | None
    said: tuple[str, str]
    step: float
    of: str = ""
    note: str = ""
    basis: str = ""
    alike: Figure | None = None
    alike_basis: str = ""


def nothing_compared(_: Any, __: Mapping[str, Any]) -> tuple[Compared, ...]:
    """What a stage without figures to compare gives."""
    return ()


@dataclass(frozen=True)
class Stage:
    """An engine as the assessment sees it.

    `nodes` in any order; the node named `<stage>.findings` returns the list of findings, and every
    result with a `figures` attribute contributes figures. `missing(asbuilt)` says, in words, what is
    not described and so not assessed; `described(asbuilt)` whether there is anything to assess.
    `compared(asbuilt, results)` gives the lines by which options are compared.
    """

    name: str
    title: str
    nodes: tuple[Node, ...]
    rules: tuple[Rule, ...]
    described: Callable[[Any], bool]
    missing: Callable[[Any], Missing]
    compared: Callable[[Any, Mapping[str, Any]], tuple[Compared, ...]] = nothing_compared
