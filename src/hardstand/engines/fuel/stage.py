"""The fuel engine as the assessment sees it.

Its levels serve the balance; lines, flow and trap join with their own tables, and until then the
stage itself has nothing to assess.
"""

from __future__ import annotations

from typing import Any

from hardstand.engines.fuel.analyse import NODES
from hardstand.engines.node import Stage


def described(_: Any) -> bool:
    """No table of fuel lines exists yet, so nothing of them can be described."""
    return False


def missing(_: Any) -> tuple[str, ...]:
    """Nothing beyond not being described."""
    return ()


STAGE = Stage("fuel", "tanks, lines and trap", NODES, (), described, missing)
