"""The balance as plain data: what `show balance --json` prints and its page is composed from."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from hardstand.changes import change_as_json
from hardstand.views.balance_travel import travel_form

if TYPE_CHECKING:
    from hardstand.asbuilt import AsBuilt
    from hardstand.assessment import Assessment
    from hardstand.engines.balance.model import Trade, WeighedIn

# The figures of a state, by the name that the form gives them.
STATE_FIGURES = {
    "mass": "mass", "cg": "cg", "cg_mac": "cg-mac", "cg_y": "cg-y", "cg_z": "cg-z",
    "static_margin": "static-margin", "nose_share": "nose-share", "tip_back": "tip-back",
    "overturn": "overturn", "ixx": "ixx", "iyy": "iyy", "izz": "izz",
}


def balance_form(assessment: Assessment, asbuilt: AsBuilt) -> dict[str, Any]:
    """States with their figures, the ranges, weigh-ins, sensitivities, ways out.

    A figure that could not be worked out is None. Ranges are mm aft of the CG mark.
    """
    results = assessment.results
    aeroplane = asbuilt.aeroplane
    trade: Trade | None = results.get("balance.trade")
    weighings = results.get("balance.weighings")
    stability = results.get("balance.stability")
    headline = results.get("balance.headline")
    return {
        "mark": asbuilt.cg_mark_name,
        "range": _range(aeroplane.cg_range_mm, aeroplane.cg_range_state),
        "target": _range(aeroplane.cg_target_mm, aeroplane.cg_target_state),
        "updated_by_weigh_in": bool(headline and headline.updated),
        "states": [_state(assessment, one.id, one.name, flown=one.flown) for one in asbuilt.states],
        "planform": [_figure(assessment, f"balance.{name}@wing")
                     for name in ("mac", "mac-leading-edge", "neutral-point", "neutral-point-mac")],
        "assumptions": list(stability.assumptions) if stability else [],
        "weigh_ins": [_weigh_in(one) for one in weighings.weighed] if weighings else [],
        **travel_form(assessment),
        **_trade(trade, {one.id: one.name for one in asbuilt.masses}),
    }


def _range(ends: tuple[float, float] | None, state: str | None) -> dict[str, Any] | None:
    return None if ends is None else {"low": ends[0], "high": ends[1], "unit": "mm", "state": state}


def _figure(assessment: Assessment, address: str) -> dict[str, Any] | None:
    try:
        return assessment.figure(address).as_json()
    except KeyError:
        return None


def _state(assessment: Assessment, state_id: str, name: str, *, flown: bool) -> dict[str, Any]:
    figures = {key: _figure(assessment, f"balance.{figure}@{state_id}")
               for key, figure in STATE_FIGURES.items()}
    return {"id": state_id, "name": name, "flown": flown, **figures}


def _weigh_in(one: WeighedIn) -> dict[str, Any]:
    names = zip(one.suspects, one.suspect_names, strict=True)
    return {"id": one.id, "state": one.state_id, "method": one.method, "mass_g": one.mass_g,
            "u_mass_g": one.u_mass_g, "x_mm": one.x_mm, "u_x_mm": one.u_x_mm,
            "residual_g": one.residual_g, "u_residual_g": one.u_residual_g,
            "residual_mm": one.residual_mm, "u_residual_mm": one.u_residual_mm,
            "chance": one.chance,
            "suspects": [{"name": name, "kind": found.kind, "size": found.size, "unit": found.unit}
                         for found, name in names]}


def _trade(trade: Trade | None, names: dict[str, str]) -> dict[str, Any]:
    if trade is None:
        return {"judged_state": None, "u_now_mm": None, "per_10g_mm": [], "next_weighing": [],
                "ways": []}
    per_10g = [{"id": one, "name": names.get(one, one), "mm": value}
               for one, value in trade.per_10g_mm.items()]
    return {
        "judged_state": trade.state_id, "u_now_mm": trade.u_now_mm,
        "per_10g_mm": sorted(per_10g, key=lambda one: (one["mm"], one["id"])),
        "next_weighing": [{"address": address, "u_after_mm": after}
                          for address, after in trade.next_weighing],
        "ways": [{"kind": one.kind, "text": one.text, "cg_mm": one.cg_mm, "added_g": one.added_g,
                  "reaches_range": one.reaches_range, "reaches_target": one.reaches_target,
                  "changes": [change_as_json(change) for change in one.changes]}
                 for one in trade.ways],
    }
