"""`hardstand explain`: the rule behind a finding."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from hardstand.cli.refusal import Refusal, did_you_mean
from hardstand.cli.shared import as_json, units
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    from hardstand.findings import Rule
    from hardstand.standards.units import System


@click.command(cls=Command, section="Ask", short_help="give the rule, formula and source of a code")
@click.argument("code", cls=Argument, required=False,
                help="the code of a finding, such as fit.box-gap; without it all are listed")
@units
@as_json
@click.pass_obj
def explain(talk: Talk, code: str | None, units: System) -> int:
    """Explain a finding's code: why the rule is there, its formula, its limit and where it is from."""
    from hardstand.stages import rules
    from hardstand.views.rules import rule_page, rules_page

    known = rules()
    if code is None:
        forms = [rule_form(one) for one in known.values()]
        if talk.as_json:
            talk.data({"format": 1, "rules": forms})
        else:
            talk.page(rules_page(forms, talk.measure))
        return 0
    if code not in known:
        raise Refusal(f"There is no rule {code}.", did_you_mean(
            code, known, "`hardstand explain` lists all rules."))
    form = rule_form(known[code])
    if talk.as_json:
        talk.data({"format": 1, **form})
    else:
        talk.page(rule_page(form, talk.measure, units))
    return 0


def rule_form(rule: Rule) -> dict[str, Any]:
    """A rule as plain data, with each limit in full; one of the builder's own only by its address."""
    from hardstand.standards.limits import BY_ID

    limits: list[dict[str, Any]] = []
    for name in filter(None, (one.strip() for one in rule.limit.split(","))):
        limit = BY_ID.get(name)
        limits.append({**limit.as_json(), "meaning": limit.meaning, "target": limit.target}
                      if limit else {"id": name})
    return {"code": rule.code, "title": rule.title, "why": rule.why, "formula": rule.formula,
            "source": rule.source, "acceptable": rule.acceptable, "limits": limits}
