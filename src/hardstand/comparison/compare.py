"""Assess the description and its options, and put them side by side."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from hardstand.comparison.differences import by_key, differences
from hardstand.comparison.lines import described_lines
from hardstand.comparison.value import Column, Comparison, Line, Severities
from hardstand.engines.node import Compared
from hardstand.stages import stages
from hardstand.workspace import Tell, Workspace, opened

if TYPE_CHECKING:
    from hardstand.asbuilt import AsBuilt
    from hardstand.assessment import Assessment

Placed = tuple[Workspace, tuple[str, ...]]


def named_columns(words: Sequence[str], known: Sequence[str]) -> list[tuple[str, ...]]:
    """The options of each column after the first: `a`, or `a+b` for several; all of them without words.

    >>> named_columns(["a", "a+b", "a"], ["a", "b"]), named_columns([], ["a", "b"])
    ([('a',), ('a', 'b')], [('a',), ('b',)])
    """
    chosen = [tuple(filter(None, word.split("+"))) for word in words] or [(one,) for one in known]
    return [one for one in dict.fromkeys(chosen) if one]


def compare(workspace: Workspace, columns: Sequence[tuple[str, ...]], tell: Tell | None = None,
            place: Mapping[tuple[str, ...], Placed] | None = None) -> Comparison:
    """The description without options, and with those of each column, side by side.

    `place` holds, for columns that a solver has placed anew, the workspace with that layout and what
    was moved. `tell` hears the name of each step before it runs. Raises UnreadableError where the
    description with an option cannot be read.
    """
    from hardstand.assessment import Memory

    memory = Memory()
    placed = place or {}
    made: list[Column] = []
    built: list[AsBuilt] = []
    compared: list[list[Compared]] = []
    for options in [(), *columns]:
        space, moved = placed.get(options, (None, ()))
        space = space or opened(workspace.folder, workspace.texts, options)
        assessment = space.assess(memory, _named(tell, options))
        built.append(space.as_built())
        made.append(_column(space, assessment, options, moved))
        compared.append(_compared(built[-1], built[0], assessment))
    lines = _lines(compared)
    return Comparison(built[0].aeroplane.name, tuple(made), lines, _severities(made),
                      tuple(differences(made, lines, built)))  # fmt: skip


def _named(tell: Tell | None, options: tuple[str, ...]) -> Tell | None:
    return None if tell is None else lambda step: tell(f"{'+'.join(options) or 'as described'}: {step}")


def _column(space: Workspace, assessment: Assessment, options: tuple[str, ...],
            moved: tuple[str, ...]) -> Column:
    names = {row.get("id"): row.get("name", "") for row in space.base.rows.get("option", [])}
    left_out = tuple(one.name for one in assessment.stages if one.standing == "not assessed")
    return Column(options, "; ".join(filter(None, (str(names.get(one, "")) for one in options))),
                  assessment.findings, left_out, assessment.set_aside, moved)  # fmt: skip


def _compared(asbuilt: AsBuilt, base: AsBuilt, assessment: Assessment) -> list[Compared]:
    """What the description and each stage that assessed anything give, in the order of the stages."""
    left_out = {one.name for one in assessment.stages if one.standing == "not assessed"}
    found = described_lines(asbuilt, base, assessment.results)
    for stage in stages():
        if stage.name not in left_out:
            found += stage.compared(asbuilt, assessment.results)
    return found


def _lines(compared: Sequence[Sequence[Compared]]) -> tuple[Line, ...]:
    """The lines of all columns, each on one basis: the one that every column has, if they differ."""
    labels = {one.id: one.label for column in reversed(compared) for one in reversed(column)}
    order = dict.fromkeys(one.id for column in compared for one in column)
    by_id = [{one.id: one for one in column} for column in compared]
    lines = []
    for name in order:
        values = [column.get(name) for column in by_id]
        bases = {one.basis for one in values if one is not None}
        basis = next(iter(bases))
        if len(bases) > 1:
            values = [one and replace(one, figure=one.alike) for one in values]
            basis = next(one.alike_basis for one in values if one is not None)
        lines.append(Line(name, labels[name], tuple(values), basis))
    return tuple(lines)


def _severities(columns: Sequence[Column]) -> Severities:
    """The findings that are not the same in all columns, the worst first."""
    found = [by_key(column.findings) for column in columns]
    keys = dict.fromkeys(key for one in found for key in one)
    rows = {key: tuple(one.get(key) for one in found) for key in keys}
    return {key: row for key, row in rows.items() if len(set(row)) > 1}
