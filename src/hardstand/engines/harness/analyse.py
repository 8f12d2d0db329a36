"""The nodes of the harness engine, in the order in which they read."""

from __future__ import annotations

from hardstand.engines.harness.channels import channels
from hardstand.engines.harness.lengths import lengths
from hardstand.engines.harness.making import makings
from hardstand.engines.harness.netlist import circuit, netlist
from hardstand.engines.harness.routes import routes
from hardstand.engines.harness.rules import circuit_findings, findings
from hardstand.engines.harness.supply import supply
from hardstand.engines.node import Node

# What depends on the circuit is not worked out again where items are only moved.
_CIRCUIT = ("harness.circuit",)
NODES = (
    Node("harness.circuit", ("items", "leads", "joints", "loads"), (), circuit, keeps=True, settles=True),
    Node("harness.netlist", ("items", "joints"), _CIRCUIT, netlist),
    Node("harness.supply", (), _CIRCUIT, supply, version=2),
    Node("harness.channels", ("channels",), _CIRCUIT, channels),
    Node(
        "harness.circuit-findings",
        ("limits", "channels", "on_hand_parts"),
        ("harness.circuit", "harness.supply", "harness.channels"),
        circuit_findings,
    ),
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
        ("limits", "channels"),
        ("harness.netlist", "harness.channels", "harness.circuit-findings", "harness.lengths",
         "harness.routes"),
        findings,
    ),
)  # fmt: skip
