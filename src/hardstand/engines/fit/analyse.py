"""The nodes of the fit engine, in the order in which they read."""

from __future__ import annotations

from hardstand.engines.fit.access import access
from hardstand.engines.fit.aerials import aerials
from hardstand.engines.fit.clearances import clearances
from hardstand.engines.fit.containment import containment
from hardstand.engines.fit.gyros import gyros
from hardstand.engines.fit.moves import moves
from hardstand.engines.fit.pass_through import pass_throughs
from hardstand.engines.fit.rules import findings
from hardstand.engines.fit.solids import solids
from hardstand.engines.node import Node

NODES = (
    Node("fit.solids", ("items", "trays", "holes", "keep_outs"), (), solids, keeps=True),
    Node("fit.clearances", ("limits",), ("fit.solids",), clearances, keeps=True),
    Node("fit.containment", ("trays", "sections"), ("fit.solids",), containment, keeps=True),
    Node("fit.gyros", ("aeroplane",), ("fit.solids", "balance.headline"), gyros),
    Node("fit.aerials", ("items", "antennas", "leads"), ("fit.solids",), aerials, keeps=True),
    Node("fit.access", ("hatches", "sections"), ("fit.solids",), access, keeps=True),
    Node("fit.pass-throughs", ("items", "holes", "leads"), (), pass_throughs),
    Node(
        "fit.moves",
        ("items", "trays", "sections", "limits"),
        ("fit.solids", "fit.clearances", "fit.containment"),
        moves,
    ),
    Node(
        "fit.findings",
        (
            "items",
            "trays",
            "sections",
            "hatches",
            "antennas",
            "leads",
            "limits",
            "masses",
            "aeroplane",
        ),
        (
            "balance.headline",
            "fit.solids",
            "fit.clearances",
            "fit.containment",
            "fit.gyros",
            "fit.aerials",
            "fit.access",
            "fit.pass-throughs",
            "fit.moves",
        ),
        findings,
    ),
)
