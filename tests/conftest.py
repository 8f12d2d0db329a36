"""Settings shared by all tests: how hypothesis searches, and that no skipped test goes unseen."""

from __future__ import annotations

import os
from collections import Counter

import pytest
from hypothesis import settings

# No deadline: a machine at work on something else is not a defect. In CI the search is the same
# each time, so that a change is judged by what it changed; elsewhere it looks at new cases.
settings.register_profile("desk", deadline=None, print_blob=True)
settings.register_profile("ci", deadline=None, print_blob=True, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print how many tests were skipped for each reason; nothing where none was."""
    reasons: Counter[str] = Counter()
    for skipped in terminalreporter.stats.get("skipped", []):
        place = skipped.longrepr
        reason = place[2] if isinstance(place, tuple) else str(place)
        reasons[reason.removeprefix("Skipped: ")] += 1
    if reasons:
        terminalreporter.section("skipped, and why")
        for reason, count in sorted(reasons.items()):
            terminalreporter.line(f"{count:5d}  {reason}")
