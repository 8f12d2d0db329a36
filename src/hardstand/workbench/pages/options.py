"""The sheet of the options: ticked by column, compared, and what differs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hardstand.workbench.asked import Asked, Common, common
from hardstand.workbench.compared import Compared, compared
from hardstand.workbench.long import Standing
from hardstand.workbench.options import COLUMNS, OptionRow, option_rows
from hardstand.workbench.since import Difference


@dataclass(frozen=True)
class OptionsPage:
    """The options with their ticks by column, the work, and the comparison where there is one.

    `changed` is what is no longer as it was when that was made.
    """

    common: Common
    options: Sequence[OptionRow]
    ticks: Mapping[str, Sequence[str]]
    work: Standing
    compared: Compared | None
    changed: Sequence[Difference]
    columns: Sequence[str] = COLUMNS


def options(asked: Asked) -> OptionsPage:
    """What the sheet of the options shows."""
    held, work = asked.held, asked.bench.comparing.now
    rows = option_rows(held.workspace)
    form: Mapping[str, Any] | None = work.result["comparison"] if work.result else None
    changed = asked.bench.changed_since(work.about, held) if work.about and form else []
    asked_for = work.asked.get("columns") or [(one.id,) for one in rows]
    ticks = dict.fromkeys(COLUMNS, ()) | dict(zip(COLUMNS, asked_for, strict=False))
    return OptionsPage(
        common(asked, "options", "Options", "the description and its options, side by side"), rows,
        ticks, work, compared(form, asked.preferences.units) if form else None, changed,
    )  # fmt: skip
