"""What a change would do while it is still in the hand: the figures that a dragged item shows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.description.problems import UnreadableError
from hardstand.description.write import NotWritableError, StaleChange
from hardstand.standards.units import System
from hardstand.views.fit_form import fit_form
from hardstand.views.notice import tally
from hardstand.views.number import figure_shown, limit_said, shown
from hardstand.views.words import sentence
from hardstand.workbench.actions.changing import change_in
from hardstand.workbench.bench import Bench, Held
from hardstand.workbench.preferences import preferences_of
from hardstand.workbench.turns import SupersededError

_MOST = 6


def tried(bench: Bench, values: Mapping[str, str], cookies: Mapping[str, str]) -> tuple[dict[str, Any], int]:
    """The figures with a change, as words; with what is wrong where it could not be made."""
    change = change_in(values)
    try:
        held = bench.tried([change])
    except SupersededError:
        return {"superseded": True}, 200
    except StaleChange as error:
        return {"trouble": sentence(str(error))}, 409
    except (UnreadableError, NotWritableError) as error:
        problems = getattr(error, "problems", ())
        return {"trouble": sentence(problems[0].what if problems else str(error))}, 422
    units = preferences_of(cookies).units
    at = change.new[0] if isinstance(change.new, list) and change.new else None
    station = shown(at, "mm", None, units) if isinstance(at, int | float) else ""
    return {"station": station, **trial_form(held, values.get("item", ""), units)}, 200


def trial_form(held: Held, item: str, units: System) -> dict[str, Any]:
    """Distances of one item tightest first, the CG of the judged state, the tally."""
    form = fit_form(held.assessment, held.asbuilt, item)
    return {
        "tally": tally(held.form),
        "cg": cg_words(held, units),
        "gaps": [gap_words(one, item, units) for one in in_order(form)[:_MOST]],
    }


def in_order(form: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    """The checks of all groups, the tightest first."""
    every = (row for group in form["groups"].values() for row in group)
    return sorted(every, key=lambda one: float(one["spare"]))


def gap_words(check: Mapping[str, Any], item: str, units: System) -> dict[str, str]:
    """One distance in words: to what, how far, what it needs, whether it holds."""
    others = [one for one in check["about"] if one != item]
    rule = check["code"].partition(".")[2].replace("-", " ")
    return {"to": f"{rule}, {', '.join(others)}" if others else rule,
            "figure": figure_shown(check["figure"], units), "limit": limit_said(check["limit"], units),
            "outcome": check["outcome"], "of": check["figure"]["address"]}  # fmt: skip


def cg_words(held: Held, units: System) -> dict[str, str] | None:
    """The CG of the state that the range belongs to, behind the mark; None where it is not known."""
    state = held.asbuilt.aeroplane.cg_range_state or next((one.id for one in held.asbuilt.states), "")
    try:
        figure = held.assessment.figure(f"balance.cg@{state}")
    except KeyError:
        return None
    limits = held.asbuilt.aeroplane.cg_range_mm
    bound = {"low": limits[0], "high": limits[1], "unit": "mm"} if limits else None
    return {"figure": figure_shown(figure.as_json(), units), "of": figure.address, "state": state,
            "limit": limit_said(bound, units) if bound else ""}  # fmt: skip
