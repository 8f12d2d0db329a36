"""A better layout: looked for, the search stopped, one of the layouts taken."""

from __future__ import annotations

from collections.abc import Mapping

from hardstand.changes import change_from_json
from hardstand.workbench.bench import Bench
from hardstand.workbench.layouts import free_items, ticked
from hardstand.workbench.outcome import Outcome, begun, refused

MOST_LAYOUTS, MOST_WORK = 3, 10_000
GOES_ON = "It goes on when this page is closed, and what it finds is kept here."


def look(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """Begin to look for layouts in which what is ticked stands better."""
    bench.refresh()
    held = bench.held()
    every = free_items(held.asbuilt)
    chosen = ticked(values, every)
    if not chosen:
        return refused("nothing is ticked that may move.", "Tick what may stand elsewhere.", status=422)
    free = None if len(chosen) == len(every) else tuple(one.id for one in chosen)
    asked = {"free": free, "alternatives": _whole(values, "alternatives", MOST_LAYOUTS),
             "work": _whole(values, "work", MOST_WORK)}  # fmt: skip
    bench.seeking.start(held, asked)
    return begun(f"The search has begun. {GOES_ON}")


def stop_looking(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """End the search with the best that it has."""
    del values
    bench.seeking.stop()
    return begun("The search is being ended: the best so far is still checked, then it is shown.")


def take_layout(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """Write a layout that was found, as one change, where the description is still what it was found for."""
    standing = bench.seeking.now
    layouts = standing.result["placement"]["layouts"] if standing.result else []
    number = _whole(values, "layout", MOST_LAYOUTS)
    if str(standing.number) != values.get("search") or number > len(layouts):
        return refused("that layout is no longer here: another search has been made.", "Look at its answer.")
    layout = layouts[number - 1]
    if not layout["changes"]:
        return refused("everything stands there already.", status=200)
    moved = [one["item"] for one in layout["places"] if one["moved"]]
    more = f" and {len(moved) - 3} more" if len(moved) > 3 else ""
    changes = [change_from_json(one) for one in layout["changes"]]
    return bench.change(changes, f"layout {number} taken: {', '.join(moved[:3])}{more}", standing.about)


def _whole(values: Mapping[str, str], name: str, most: int) -> int:
    """A number of a form from 1 to the most; raises ValueError for anything else."""
    number = int(values.get(name, "1"))
    if not 1 <= number <= most:
        raise ValueError(f"{name} is a number from 1 to {most}")
    return number
