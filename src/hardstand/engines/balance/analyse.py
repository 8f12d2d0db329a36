"""The nodes of the balance engine, in the order in which they read."""

from __future__ import annotations

from typing import Any

from hardstand.engines.balance.ballast_share import ballast_share
from hardstand.engines.balance.headline import headline
from hardstand.engines.balance.inside import inside
from hardstand.engines.balance.margins import margins
from hardstand.engines.balance.mass_table import masses
from hardstand.engines.balance.model import Headline, Inertia, MassTable, Weighings
from hardstand.engines.balance.on_wheels import on_wheels
from hardstand.engines.balance.range_margins import range_margins
from hardstand.engines.balance.rules import findings
from hardstand.engines.balance.stability import stability
from hardstand.engines.balance.sums import inertia_figures, sums
from hardstand.engines.balance.trade import trade
from hardstand.engines.balance.travel import travel
from hardstand.engines.balance.weighings import weighings
from hardstand.engines.node import Node


def inertia(_: Any, earlier: Any) -> Inertia | None:
    """Inertia of every state after all weigh-ins as figures; None without a mass table."""
    table: MassTable | None = earlier["balance.masses"]
    head: Headline | None = earlier["balance.headline"]
    if table is None or head is None:
        return None
    weighings: Weighings | None = earlier["balance.weighings"]
    return Inertia(table.state_ids, inertia_figures(table, weighings, head))


NODES = (
    Node("balance.masses", ("masses", "legs", "states"), ("fuel.levels",), masses),
    Node("balance.sums", (), ("balance.masses",), sums),
    Node(
        "balance.weighings",
        ("weighings", "states", "legs"),
        ("balance.masses", "balance.sums"),
        weighings,
    ),
    Node("balance.stability", ("aeroplane", "panels", "sections", "stability"), (), stability),
    Node(
        "balance.headline",
        ("cg_mark",),
        ("balance.masses", "balance.weighings", "balance.stability"),
        headline,
    ),
    Node(
        "balance.inertia",
        (),
        ("balance.masses", "balance.weighings", "balance.headline"),
        inertia,
    ),
    Node(
        "balance.travel",
        ("masses", "legs", "cg_mark"),
        ("balance.masses", "balance.weighings", "balance.stability", "fuel.burn"),
        travel,
    ),
    Node("balance.margins", ("limits",), ("balance.headline", "balance.stability"), margins),
    Node(
        "balance.range",
        ("aeroplane", "cg_mark", "limits"),
        ("balance.stability",),
        range_margins,
    ),
    Node("balance.ballast", ("masses",), ("balance.headline",), ballast_share),
    Node(
        "balance.inside",
        ("aeroplane", "cg_mark", "states", "limits"),
        ("balance.headline", "balance.stability"),
        inside,
    ),
    Node("balance.wheels", ("states", "legs", "tail_strike"), ("balance.headline",), on_wheels),
    Node(
        "balance.trade",
        (
            "aeroplane",
            "cg_mark",
            "states",
            "legs",
            "masses",
            "items",
            "leads",
            "on_hand",
            "on_hand_parts",
            "ballast_places",
        ),
        ("balance.masses", "balance.headline"),
        trade,
    ),
    Node(
        "balance.findings",
        (
            "aeroplane",
            "cg_mark",
            "cg_mark_name",
            "states",
            "limits",
            "masses",
            "panels",
            "legs",
            "stability",
            "stale",
            "weighings",
        ),
        (
            "balance.headline",
            "balance.weighings",
            "balance.stability",
            "balance.margins",
            "balance.range",
            "balance.ballast",
            "balance.travel",
            "balance.wheels",
            "balance.trade",
            "fuel.levels",
        ),
        findings,
    ),
)
