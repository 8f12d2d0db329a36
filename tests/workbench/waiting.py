"""Long work waited for, and the forms that begin it, for the tests."""

from __future__ import annotations

import time
from collections.abc import Callable

from hardstand.workbench.layouts import free_items
from hardstand.workbench.long import LongWork, Standing
from tests.workbench.asking import Browser

MOST_S = 90.0


def until(work: LongWork, wanted: Callable[[Standing], bool]) -> Standing:
    """Wait until work stands as wanted."""
    ends = time.monotonic() + MOST_S
    while not wanted(work.now):
        assert time.monotonic() < ends, work.now
        time.sleep(0.05)
    return work.now


def ended(work: LongWork) -> Standing:
    """Wait until work is at its end."""
    return until(work, lambda one: one.phase != "working")


def every_tick(made: Browser) -> dict[str, str]:
    """The form of a search with everything ticked, short."""
    items = free_items(made.bench.held().asbuilt)
    ticks = {f"item.{one.id}": "on" for one in items} | {f"tray.{one.on}": "on" for one in items}
    return {**ticks, "alternatives": "1", "work": "1", "back": "/layouts"}
