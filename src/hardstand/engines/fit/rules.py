"""The fit turned into findings: which rule speaks, and what each rule is, for `explain`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.engines.fit.model import Aerials, Contained, Gyros, Move, Moves
from hardstand.engines.fit.move_costs import Weights, weights
from hardstand.engines.fit.piece import Solids
from hardstand.engines.fit.rule_texts import RULES
from hardstand.engines.fit.rules_checks import (
    by_pair,
    by_pairs_of,
    by_rule_and_first,
    by_rule_and_pair,
    check_findings,
)
from hardstand.engines.fit.rules_missing import (
    assumed_findings,
    assumption_findings,
    gap_findings,
    missing_findings,
    outside_findings,
)
from hardstand.engines.fit.wording import move_words
from hardstand.findings import Finding, Remedy

__all__ = ["RULES", "findings"]


def remedy(move: Move, known: Weights, names: Mapping[str, str]) -> Remedy:
    """A move as a way out, with what it costs."""
    text, effects = move_words(move, names)
    effects += (known.cg_words(move),)
    return Remedy(text, (move.change,), tuple(one for one in effects if one))


def findings(slices: Any, earlier: Any) -> list[Finding]:
    """Everything the fit engine has to say, in no particular order; nothing without items."""
    if not slices.items:
        return []
    solids: Solids = earlier["fit.solids"]
    names = dict(solids.names) | {row.id: row.name or row.id for row in slices.hatches}
    moves: Moves = earlier["fit.moves"]
    known = weights(slices.masses, earlier["balance.headline"], slices.aeroplane.cg_range_state)
    ways = {
        frozenset(about): remedy(move, known, names) for (_, about), move in moves.found.items()
    }
    contained: Contained = earlier["fit.containment"]
    gyros: Gyros = earlier["fit.gyros"]
    aerials: Aerials = earlier["fit.aerials"]
    access = earlier["fit.access"]
    receivers = {row.id: row.item for row in slices.antennas}
    aerial_names = names | {row.id: f"aerial {row.id}" for row in slices.antennas}
    aerial_names |= {row.id: f"lead {row.id}" for row in slices.leads}
    limits = slices.limits
    return [
        *missing_findings(slices),
        *check_findings(earlier["fit.clearances"], limits, names, by_pair, ways),
        *check_findings(contained, limits, names, by_rule_and_pair, ways),
        *check_findings(gyros, limits, names, by_rule_and_first, {}),
        *check_findings(aerials, limits, aerial_names, by_pairs_of(receivers), {}),
        *check_findings(earlier["fit.pass-throughs"], limits, aerial_names, by_rule_and_first, {}),
        *check_findings(access, limits, names, by_rule_and_first, {}),
        *gap_findings((*gyros.gaps, *aerials.gaps, *access.gaps)),
        *outside_findings(contained.outside_bays),
        *assumed_findings(slices, earlier),
        *assumption_findings(earlier),
    ]
