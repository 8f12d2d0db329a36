"""The nodes of the power engine, in the order in which they read."""

from __future__ import annotations

from hardstand.engines.node import Node
from hardstand.engines.power.choice.chosen import choices
from hardstand.engines.power.choice.laid import laid
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
        version=2,
        keeps=True,
    ),
    # lengths and bundles of the routes, which seldom change where an item is moved
    Node("power.laid", (), ("power.network", "harness.circuit", "harness.making", "harness.routes"), laid,
         settles=True),
    Node(
        "power.choice",
        ("limits", *_FLIGHT),
        ("power.network", "power.moments", "power.failures", "power.laid", "harness.circuit",
         "harness.supply"),
        choices,
    ),
    Node(
        "power.findings",
        ("limits", "phases", "on_hand", "on_hand_parts"),
        ("harness.circuit", "harness.channels", "harness.supply", "power.network", "power.moments",
         "power.islands", "power.endurance", "power.failures", "power.choice"),
        findings,
        version=2,
    ),
)  # fmt: skip
