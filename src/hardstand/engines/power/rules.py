"""The power stage turned into findings, and what each rule is, for `explain`."""

from __future__ import annotations

from typing import Any

from hardstand.engines.power.model import Choices, Endurance, Failures, Moments, PowerNetwork
from hardstand.engines.power.rule_texts import RULES
from hardstand.engines.power.rules_failures import failure_findings
from hardstand.engines.power.rules_limits import judged_findings
from hardstand.engines.power.rules_missing import missing_findings
from hardstand.engines.power.rules_wire import wire_findings
from hardstand.findings import Finding

__all__ = ["RULES", "findings"]


def findings(slices: Any, earlier: Any) -> list[Finding]:
    """Everything that the power stage has to say, in no particular order."""
    power: PowerNetwork | None = earlier["power.network"]
    moments: Moments | None = earlier["power.moments"]
    endurance: Endurance | None = earlier["power.endurance"]
    failed: Failures | None = earlier["power.failures"]
    chosen: Choices | None = earlier["power.choice"]
    net, plan = earlier["harness.circuit"], earlier["harness.channels"]
    if power is None or moments is None or failed is None or chosen is None:
        return []
    return [
        *judged_findings(power, earlier["power.islands"], moments, endurance, net, chosen, slices),
        *wire_findings(chosen, earlier["harness.supply"], slices.limits),
        *failure_findings(power, failed, plan),
        *missing_findings(power, moments, net, slices.phases),
    ]
