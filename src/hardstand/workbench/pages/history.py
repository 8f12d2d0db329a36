"""The page of the history: every text of the description that was written or seen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hardstand.description.revisions import Revision
from hardstand.description.revisions import history as revisions
from hardstand.workbench.asked import Asked, Common, common

MOST = 400


@dataclass(frozen=True)
class HistoryPage:
    """Revisions, the latest first, and how many earlier ones there are."""

    common: Common
    revisions: Sequence[Revision]
    earlier: int


def history(asked: Asked) -> HistoryPage:
    """What the page of the history shows."""
    found = revisions(asked.bench.folder)[::-1]
    return HistoryPage(common(asked, None, "History", "every text that was written or seen"),
                       found[:MOST], max(0, len(found) - MOST))  # fmt: skip
