"""The page of a rule: why it is there, its formula, its limit, its source."""

from __future__ import annotations

from dataclasses import dataclass

from hardstand.findings import Limit, Rule
from hardstand.stages import rules
from hardstand.workbench.asked import Asked, Common, NoSuchPageError, common


@dataclass(frozen=True)
class RulePage:
    """A rule with its limits as they are for this aeroplane."""

    common: Common
    rule: Rule
    limits: list[Limit]


def rule(asked: Asked) -> RulePage:
    """What the page of a rule shows."""
    limits = asked.held.asbuilt.limits
    code = asked.query.get("code", "")
    known = rules()
    if code not in known:
        raise NoSuchPageError(f"There is no rule {code}.", "A finding's code leads to its rule.")
    found = known[code]
    names = [one.strip() for one in found.limit.split(",")]
    title = found.title[:1].upper() + found.title[1:]
    return RulePage(common(asked, None, title, code), found, [limits[one] for one in names if one in limits])
