"""The balance turned into findings: which rule speaks, and what each rule is, for `explain`."""

from __future__ import annotations

from typing import Any

from hardstand.engines.balance.rule_texts import RULES
from hardstand.engines.balance.rules_ballast import ballast_findings
from hardstand.engines.balance.rules_cg import cg_findings
from hardstand.engines.balance.rules_lateral import lateral_findings
from hardstand.engines.balance.rules_margin import margin_findings
from hardstand.engines.balance.rules_missing import missing_findings
from hardstand.engines.balance.rules_range import range_findings
from hardstand.engines.balance.rules_stance import stance_findings
from hardstand.engines.balance.rules_travel import travel_findings
from hardstand.engines.balance.rules_weighing import weighing_findings
from hardstand.findings import Finding

__all__ = ["RULES", "findings"]

SPEAKERS = (
    cg_findings,
    lateral_findings,
    margin_findings,
    range_findings,
    travel_findings,
    stance_findings,
    weighing_findings,
    ballast_findings,
)


def findings(slices: Any, earlier: Any) -> list[Finding]:
    """Everything the balance engine has to say, in no particular order.

    An aeroplane without any mass says nothing: its stage is not assessed.
    """
    if not slices.masses:
        return []
    found = list(missing_findings(slices, earlier))
    if earlier["balance.headline"] is None:
        return found
    return found + [one for speak in SPEAKERS for one in speak(slices, earlier)]
