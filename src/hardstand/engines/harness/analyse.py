"""The nodes of the harness engine, in the order in which they read."""

from __future__ import annotations

from hardstand.engines.harness.channels import channels
from hardstand.engines.harness.lengths import lengths
from hardstand.engines.harness.making import makings
from hardstand.engines.harness.netlist import netlist
from hardstand.engines.harness.routes import routes
from hardstand.engines.harness.rules import findings
from hardstand.engines.harness.supply import supply
from hardstand.engines.node import Node

NODES = (
    Node("harness.netlist", ("items", "leads", "joints", "loads"), (), netlist),
    Node("harness.supply", (), ("harness.netlist",), supply, version=2),
    Node("harness.channels", ("channels",), ("harness.netlist",), channels),
    Node("harness.lengths", ("items",), ("harness.netlist",), lengths),
    Node(
        "harness.routes",
        ("items", "trays", "holes", "sections", "keep_outs", "antennas", "limits"),
        ("harness.netlist", "harness.supply"),
        routes,
        keeps=True,
    ),
    Node("harness.making", ("limits",), ("harness.netlist", "harness.channels", "harness.routes"), makings),
    Node(
        "harness.findings",
        ("limits", "channels", "on_hand_parts"),
        ("harness.netlist", "harness.supply", "harness.channels", "harness.lengths",
         "harness.routes"),
        findings,
    ),
)
