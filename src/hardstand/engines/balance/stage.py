"""The balance engine as the assessment sees it."""

from __future__ import annotations

from typing import Any

from hardstand.engines.balance.analyse import NODES
from hardstand.engines.balance.compared import compared
from hardstand.engines.balance.rules import RULES
from hardstand.engines.balance.rules_missing import missing_of
from hardstand.engines.node import Stage

WORDS = {
    "state": "loading states",
    "cg_mark": "the CG mark",
    "cg_range": "the designer's CG range",
    "wing": "the wing's panels",
    "tail": "panels of a tail or canard",
    "leg": "a nose leg and two main legs",
}


def described(asbuilt: Any) -> bool:
    """Whether there is any mass to balance."""
    return bool(asbuilt.masses)


def missing(asbuilt: Any) -> tuple[str, ...]:
    """What is not described, in words."""
    return tuple(WORDS[name] for name in missing_of(asbuilt))


STAGE = Stage("balance", "mass, CG and stability in every state", NODES, RULES, described, missing,
              compared)
