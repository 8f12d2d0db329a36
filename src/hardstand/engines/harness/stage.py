"""The harness engine as the assessment sees it."""

from __future__ import annotations

from typing import Any

from hardstand.engines.harness.analyse import NODES
from hardstand.engines.harness.rules import RULES
from hardstand.engines.node import Stage


def described(asbuilt: Any) -> bool:
    """Whether there is any lead."""
    return bool(asbuilt.leads)


def missing(asbuilt: Any) -> tuple[str, ...]:
    """What is not described, in words."""
    found = []
    if not asbuilt.channels:
        found.append("the channels and what each of them moves")
    bare = [one.id for one in asbuilt.leads
            if not one.direct and one.awg is None and one.area_mm2 is None]  # fmt: skip
    if bare:
        most = ", ".join(bare[:6]) + (f" and {len(bare) - 6} more" if len(bare) > 6 else "")
        found.append(f"how thick the wires are of {most}")
    found.append("ways of the leads as they are laid: those that are computed keep to lanes")
    return tuple(found)


STAGE = Stage("harness", "leads, plugs, poles and channels", NODES, RULES, described, missing)
