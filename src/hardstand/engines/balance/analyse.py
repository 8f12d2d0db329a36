"""The nodes of the balance engine, in the order in which they read."""

from __future__ import annotations

from typing import Any

from hardstand.engines.balance.headline import headline
from hardstand.engines.balance.margins import margins
from hardstand.engines.balance.mass_table import masses
from hardstand.engines.balance.model import Inertia, MassTable, Sums
from hardstand.engines.balance.on_wheels import on_wheels
from hardstand.engines.balance.rules import findings
from hardstand.engines.balance.stability import stability
from hardstand.engines.balance.sums import inertia_figures, sums
from hardstand.engines.balance.trade import trade
from hardstand.engines.balance.weighings import weighings
from hardstand.engines.node import Node


def inertia(_: Any, earlier: Any) -> Inertia | None:
    """Inertia of every state as figures; None without a mass table."""
    table: MassTable | None = earlier["balance.masses"]
    found: Sums | None = earlier["balance.sums"]
    if table is None or found is None:
        return None
    return Inertia(table.state_ids, inertia_figures(table, found.values, found.inertia_kgm2))


NODES = (
    Node("balance.masses", ("masses", "legs", "states"), ("fuel.levels",), masses),
    Node("balance.sums", (), ("balance.masses",), sums),
    Node("balance.inertia", (), ("balance.masses", "balance.sums"), inertia),
    Node("balance.weighings", ("weighings",), ("balance.masses", "balance.sums"), weighings),
    Node("balance.stability", ("panels", "sections", "stability"), (), stability),
    Node(
        "balance.headline",
        ("cg_mark", "panels"),
        ("balance.masses", "balance.sums", "balance.weighings", "balance.stability"),
        headline,
    ),
    Node("balance.margins", ("limits",), ("balance.headline", "balance.stability"), margins),
    Node("balance.wheels", ("states", "legs", "tail_strike"), ("balance.headline",), on_wheels),
    Node(
        "balance.trade",
        (
            "aeroplane",
            "cg_mark",
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
            "stale",
            "weighings",
        ),
        (
            "balance.headline",
            "balance.weighings",
            "balance.stability",
            "balance.margins",
            "balance.wheels",
            "balance.trade",
            "fuel.levels",
        ),
        findings,
    ),
)
