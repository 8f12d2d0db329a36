"""Undo and redo, as far back as the history reaches."""

from __future__ import annotations

from collections.abc import Mapping

from hardstand.workbench.bench import Bench
from hardstand.workbench.outcome import Outcome


def undo_step(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """Write the text before the latest edit as a new revision."""
    del values
    return bench.step(back=True)


def redo_step(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """Write again what the latest undo took away."""
    del values
    return bench.step(back=False)
