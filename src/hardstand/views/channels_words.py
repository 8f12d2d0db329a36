"""What a plan of channels says in sentences: how it ended, what is left, what the check says."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

Form = Mapping[str, Any]


def ending_words(form: Form) -> str:
    """How the search ended.

    >>> ending_words({"ending": "proven", "plugs": [{"moved": False}], "failed_before": []})
    'The present plan is the best there is with this equipment: proven.'
    """
    if form["ending"] == "infeasible":
        return "There is no plan. These cannot all be had:"
    if form["ending"] == "unknown":
        return "No plan was found in the time allowed, and none was excluded."
    if form["ending"] == "work":
        return "This plan is the best that was found; that none is better is not proven."
    among = ", where what failed carries less" if form["failed_before"] else ""
    if not any(one["moved"] for one in form["plugs"]):
        return f"The present plan is the best there is with this equipment{among}: proven."
    return f"No plan with this equipment is better{among}, counted as below: proven."


def left_words(one: Form) -> str:
    """What single failures still take, and why.

    >>> left_words({"failures": ["hub"], "takes": ["roll altogether"], "price": [], "proven": True,
    ...             "requirements": ["every output hangs on it"], "helps": ["a second hub"]})
    'hub takes roll altogether: every output hangs on it. What would help: a second hub.'
    """
    several = len(one["failures"]) > 1
    said = f"{_listed(one['failures'])} {'each take' if several else 'takes'} {_listed(one['takes'])}"
    if one["requirements"]:
        together = len(one["requirements"]) > 1
        said += f"{': these stand against it: ' if together else ': '}{'; '.join(one['requirements'])}."
    elif one["price"]:
        said += f". It could be had at this price: {'; '.join(one['price'])}."
    else:
        said += ". It could be had, but at a higher price on the whole."
    if one["helps"]:
        said += f" What would help: {_listed(one['helps'])}."
    return said if one["proven"] else f"{said} Not every step was decided: fewer of them may do."


def check_words(checked: Form) -> str:
    """What the stages say of the plan."""
    new = [one for one in checked["new"] if one["severity"] != "note"]
    before, after = (sum(map(len, checked[one].values())) for one in ("takes_before", "takes_after"))
    count = len(checked["gone"])
    gone = f" {count} finding{'s' if count > 1 else ''} less." if count else ""
    axes = f" Whole axes taken by one failure, as the harness counts them: {before} now, {after} then."
    if not checked["passed"]:
        return f"Refused: assessed by all stages, this plan is worse.{axes}{gone} It brings:"
    brings = " It brings:" if new else " Nothing new is found."
    if any(one["severity"] == "no-go" for one in new):
        brings = " It brings what follows; a no-go there takes the place of one of its kind, and none is more:"
    return f"Assessed by all stages.{axes}{gone}{brings}"


def _listed(names: list[str]) -> str:
    return ", ".join(names[:-1]) + (" and " if len(names) > 1 else "") + names[-1]
