"""The one sentence on precedence and the verdict in words. Nothing here ever says "safe"."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

NOTICE = (
    "The airframe's and equipment's manuals, national law, the flying club's rules and a licensed "
    "or club inspection come before anything printed here."
)
_COUNTED = {"no-go": ("no-go", "no-go"), "measure": ("to measure", "to measure"),
            "caution": ("caution", "cautions"), "note": ("note", "notes")}


def counts(form: Mapping[str, Any]) -> dict[str, int]:
    """How many findings of each severity an assessment holds, worst first.

    >>> counts({"findings": [{"severity": "note"}]})
    {'no-go': 0, 'measure': 0, 'caution': 0, 'note': 1}
    """
    found = dict.fromkeys(_COUNTED, 0)
    for one in form["findings"]:
        found[one["severity"]] += 1
    return found


def tally(form: Mapping[str, Any]) -> str:
    """The counts in words.

    >>> tally({"findings": [{"severity": "note"}, {"severity": "caution"}]})
    '0 no-go, 0 to measure, 1 caution, 1 note'
    """
    return ", ".join(f"{number} {_COUNTED[word][number != 1]}"
                     for word, number in counts(form).items())


def verdict(form: Mapping[str, Any]) -> str:
    """What the findings come to, in a sentence or two.

    >>> verdict({"findings": [], "stages": {"fit": {"state": "assessed"}}})
    'No no-go was found in what was assessed.'
    """
    found = counts(form)
    if not found["no-go"] and all(one["state"] == "not assessed" for one in form["stages"].values()):
        return "Nothing could be assessed yet: describe masses, states and items, then check again."
    if found["no-go"]:
        stand = "1 no-go stands" if found["no-go"] == 1 else f"{found['no-go']} no-go stand"
        first = f"It must not fly, or must not be powered, like this: {stand}."
    else:
        first = "No no-go was found in what was assessed."
        if found["measure"]:
            points = "1 point" if found["measure"] == 1 else f"{found['measure']} points"
            first += f" {points} can only be decided by measuring."
    left_out = sum(one["state"] == "not assessed" for one in form["stages"].values())
    if left_out:
        stages = "1 stage was" if left_out == 1 else f"{left_out} stages were"
        first += f" {stages} not assessed, and not assessed is not “go”."
    return first
