"""Node: signed distances between everything that must stay apart, worst first, with uncertainty."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from hardstand.engines.fit.candidates import NEIGHBOURS, SPARE_MM, candidate_pairs
from hardstand.engines.fit.measured_pairs import measured
from hardstand.engines.fit.model import Check, Clearances
from hardstand.engines.fit.pairing import LIMIT_OF
from hardstand.engines.fit.piece import Piece, Solids
from hardstand.engines.fit.stack import Bools, Index
from hardstand.engines.kept import Kept
from hardstand.figures import FigureSet
from hardstand.findings import Limit

METHOD = "signed distance of convex solids, uncertainty to first order along the normal"
LABELS = {
    "box-gap": "gap",
    "plug-room": "room for plugs and bend",
    "structure-gap": "gap to structure",
    "tub-gap": "gap to what is overhead",
    "moving-gap": "gap to what moves",
    "hot-gap": "gap to what is hot",
    "fuel-gap": "gap between fuel and electrics",
    "hole-gap": "gap to the opening",
}


def clearances(slices: Any, earlier: Any, kept: Kept | None = None) -> Clearances:
    """The nearest distance of each two subjects under each rule, those that matter, worst first."""
    solids: Solids = earlier["fit.solids"]
    limits: Mapping[str, Limit] = slices.limits
    pieces = solids.pieces
    table, bound_u = solids.table, solids.table.bound_u()
    a, b, slugs = candidate_pairs(solids, limits, float(bound_u.max(initial=0.0)) * np.sqrt(2.0))
    found = measured(solids.bodies, a, b, kept)
    distance = found.distance_mm
    margin = distance - np.array([limits[LIMIT_OF[slug]].low or 0.0 for slug in slugs])
    rows = _nearest_rows(pieces, a, b, slugs, distance)
    tightest = _of_the_tightest(pieces, a[rows], b[rows], distance[rows])
    # U of most can be told to be too small to matter without the slopes by every input
    near = margin[rows] - 2.0 * (bound_u[a[rows]] + bound_u[b[rows]]) <= SPARE_MM
    rows, tightest = rows[tightest | near], tightest[tightest | near]
    slope = table.slopes(a[rows], b[rows], found.normal[rows])
    u = np.sqrt(slope**2 @ np.array([one.u for one in table.inputs]) ** 2)
    wanted = np.flatnonzero(tightest | (margin[rows] - 2.0 * u <= SPARE_MM))
    wanted = wanted[np.lexsort((rows[wanted], margin[rows[wanted]]))]
    rows, slope, u = rows[wanted], slope[wanted], u[wanted]
    a, b, slugs = a[rows], b[rows], [slugs[k] for k in rows]
    used = np.flatnonzero((slope != 0.0).any(axis=0))
    stations = (found.point_a[rows, 0] + found.point_b[rows, 0]) / 2.0
    checks = tuple(
        _check(pieces[i], pieces[j], slug, x)
        for i, j, slug, x in zip(a, b, slugs, stations.tolist(), strict=True)
    )
    figures = FigureSet(
        tuple(check.address for check in checks),
        distance[rows],
        ("mm",) * len(rows),
        tuple(table.inputs[k] for k in used),
        slope[:, used],
        labels=tuple(
            f"{LABELS[check.slug]}, {' to '.join(solids.names[one] for one in check.about)}"
            for check in checks
        ),
        method=METHOD,
    )
    return Clearances(
        figures,
        checks,
        a,
        b,
        distance[rows],
        u,
        margin[rows],
        found.point_a[rows],
        found.point_b[rows],
        found.normal[rows],
    )


def _check(one: Piece, other: Piece, slug: str, x_mm: float) -> Check:
    name = "gap" if slug == "box-gap" else slug
    about = (one.owner.id, other.owner.id)
    address = f"fit.{name}@{one.subject}+{other.subject}"
    return Check(slug, LIMIT_OF[slug], about, address, station_mm=x_mm)


def _nearest_rows(
    pieces: Sequence[Piece], a: Index, b: Index, slugs: Sequence[str], distance_mm: Any
) -> Index:
    """Of the pairs of pieces that stand for the same two subjects, the row of the nearest."""
    best: dict[tuple[str, str, str], int] = {}
    for k, (i, j, slug) in enumerate(zip(a.tolist(), b.tolist(), slugs, strict=True)):
        key = (pieces[i].subject, pieces[j].subject, slug)
        if key not in best or distance_mm[k] < distance_mm[best[key]]:
            best[key] = k
    return np.array(list(best.values()), dtype=np.intp)


def _of_the_tightest(pieces: Sequence[Piece], a: Index, b: Index, distance_mm: Any) -> Bools:
    """True (N,) for the distances that are among the least three of an item's own solid."""
    chosen = np.zeros(len(a), dtype=bool)
    taken: dict[str, int] = {}
    for k in np.argsort(distance_mm, kind="stable").tolist():
        for piece in (pieces[a[k]], pieces[b[k]]):
            if piece.role == "item" and taken.get(piece.subject, 0) < NEIGHBOURS:
                taken[piece.subject] = taken.get(piece.subject, 0) + 1
                chosen[k] = True
    return chosen
