"""The nodes of the power engine, in the order in which they read."""

from __future__ import annotations

from hardstand.engines.node import Node
from hardstand.engines.power.derive import power_network
from hardstand.engines.power.endurance import endurance
from hardstand.engines.power.failing import failures
from hardstand.engines.power.islands import islands_of
from hardstand.engines.power.moments import moments
from hardstand.engines.power.rules import findings

_WIRED = ("harness.circuit", "harness.supply", "harness.channels")
_FLIGHT = ("phases", "duties")

NODES = (
    Node("power.network", ("channels", "loads"), _WIRED, power_network),
    Node("power.islands", (), ("power.network",), islands_of),
    Node("power.moments", _FLIGHT, ("power.network", "power.islands"), moments, keeps=True),
    Node("power.endurance", _FLIGHT, ("power.network", "power.moments"), endurance),
    Node(
        "power.failures",
        _FLIGHT,
        ("power.network", "power.islands", "harness.circuit", "harness.channels"),
        failures,
        keeps=True,
    ),
    Node(
        "power.findings",
        ("limits", "phases", "on_hand", "on_hand_parts"),
        ("harness.circuit", "harness.channels", "power.network", "power.moments",
         "power.islands", "power.endurance", "power.failures"),
        findings,
    ),
)  # fmt: skip
