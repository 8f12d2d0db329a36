"""The options of a description, and the columns that they are put side by side in."""

from __future__ import annotations

from dataclasses import dataclass

from hardstand.workspace import Workspace

COLUMNS = ("A", "B", "C", "D")


@dataclass(frozen=True)
class OptionRow:
    """One option: its id and what it is called."""

    id: str
    name: str


def option_rows(workspace: Workspace) -> list[OptionRow]:
    """The options in the order described."""
    rows = workspace.base.rows.get("option", [])
    return [OptionRow(str(row.get("id")), str(row.get("name") or "")) for row in rows]
