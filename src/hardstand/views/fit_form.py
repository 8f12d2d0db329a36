"""Clearance as plain data: every distance held against its limit, the tightest first."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from hardstand.findings import judge

if TYPE_CHECKING:
    from collections.abc import Mapping

    from hardstand.asbuilt import AsBuilt
    from hardstand.assessment import Assessment
    from hardstand.engines.fit.model import Checks
    from hardstand.figures import Figure
    from hardstand.findings import Limit


def fit_form(assessment: Assessment, asbuilt: AsBuilt, about: str | None = None) -> dict[str, Any]:
    """Groups of checks by name, each tightest first, and what could not be checked.

    `about` leaves only the checks about one id. `spare` is what is left to the nearer bound of the
    limit, negative where it is passed.
    """
    groups: dict[str, list[dict[str, Any]]] = {}
    gaps: list[dict[str, Any]] = []
    outside: list[str] = []
    for name, result in assessment.results.items():
        if not name.startswith("fit.") or not hasattr(result, "checks"):
            continue
        groups[name.removeprefix("fit.")] = _group(result, asbuilt.limits, about)
        gaps += [{"slug": one.slug, "about": list(one.about), "text": one.text}
                 for one in getattr(result, "gaps", ())]
        outside += getattr(result, "outside_bays", ())
    return {"groups": groups, "gaps": gaps, "outside_bays": outside}


def _group(result: Checks, limits: Mapping[str, Limit], about: str | None) -> list[dict[str, Any]]:
    rows = []
    for check in result.checks:
        if about is not None and about not in check.about:
            continue
        figure, limit = result.figures.figure(check.address), limits[check.limit_id]
        rows.append({"code": f"fit.{check.slug}", "about": list(check.about),
                     "figure": figure.as_json(), "limit": {**limit.as_json(), "meaning": limit.meaning},
                     "spare": _spare(figure, limit), "outcome": judge(figure.value, figure.u, limit)})
    return sorted(rows, key=lambda one: (one["spare"], one["about"]))


def _spare(figure: Figure, limit: Limit) -> float:
    below = float("inf") if limit.low is None else figure.value - limit.low
    above = float("inf") if limit.high is None else limit.high - figure.value
    return min(below, above)
