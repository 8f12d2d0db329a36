"""One change from a page, with the value that the page showed: a drag, a turn, a slide."""

from __future__ import annotations

from collections.abc import Mapping

from hardstand.changes import Change, change_from_json
from hardstand.workbench.bench import Bench
from hardstand.workbench.bodies import json_in
from hardstand.workbench.outcome import Outcome


def change_in(values: Mapping[str, str]) -> Change:
    """The change that a form asks for; raises ValueError for a form that holds none.

    >>> change_in({"address": "item.rx.at_mm", "old": "[1, 2]", "new": "[1, 3]"}).new
    [1, 3]
    """
    found = change_from_json({
        "address": values.get("address", ""), "old": json_in(values.get("old", "")),
        "new": json_in(values.get("new", "")),
    })  # fmt: skip
    assert isinstance(found, Change)  # which its three fields make it
    return found


def change(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """Make it."""
    made = change_in(values)
    return bench.change([made], values.get("why", "")[:120] or f"{made.address} from the page")
