"""The harness turned into findings, and what each rule is, for `explain`."""

from __future__ import annotations

from typing import Any

from hardstand.engines.harness.model import ChannelPlan, Lengths, Netlist, Routes, Supply
from hardstand.engines.harness.rule_texts import RULES
from hardstand.engines.harness.rules_channels import channel_findings, side_findings
from hardstand.engines.harness.rules_load import length_findings, load_findings
from hardstand.engines.harness.rules_names import name_findings
from hardstand.engines.harness.rules_packs import pack_findings, series
from hardstand.engines.harness.rules_paths import path_findings
from hardstand.engines.harness.rules_pins import pin_findings
from hardstand.engines.harness.rules_plugs import plug_findings
from hardstand.engines.harness.rules_routes import route_findings
from hardstand.engines.harness.rules_signals import signal_findings
from hardstand.engines.harness.rules_supply import supply_findings
from hardstand.engines.harness.rules_switches import switch_findings
from hardstand.findings import Finding

__all__ = ["RULES", "circuit_findings", "findings"]


def circuit_findings(slices: Any, earlier: Any) -> list[Finding]:
    """What the harness has to say wherever its items are; nothing without leads."""
    net: Netlist = earlier["harness.circuit"]
    supply: Supply = earlier["harness.supply"]
    plan: ChannelPlan = earlier["harness.channels"]
    limits, on_hand, rows = slices.limits, slices.on_hand_parts, slices.channels
    if not net.leads:
        return []
    by_id = {row.id: row for row in rows}
    told = [lead for one in series(net) for lead in one.about]
    return [
        *plug_findings(net),
        *pin_findings(net, told),
        *signal_findings(net),
        *pack_findings(net, supply),
        *supply_findings(net, supply, plan, on_hand),
        *switch_findings(net),
        *load_findings(net, supply, limits),
        *channel_findings(net, plan, by_id),
        *path_findings(net, plan, by_id),
        *name_findings(net, rows),
    ]


def findings(slices: Any, earlier: Any) -> list[Finding]:
    """Everything the harness has to say, in no particular order; nothing without leads."""
    net: Netlist = earlier["harness.netlist"]
    plan: ChannelPlan = earlier["harness.channels"]
    lengths: Lengths = earlier["harness.lengths"]
    routes: Routes = earlier["harness.routes"]
    if not net.leads:
        return []
    return [
        *earlier["harness.circuit-findings"],
        *length_findings(net, lengths, slices.limits),
        *route_findings(net, routes, lengths, slices.limits),
        *side_findings(net, plan, {row.id: row for row in slices.channels}),
    ]
