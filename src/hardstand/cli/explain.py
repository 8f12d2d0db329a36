"""`hardstand explain`: the rule behind a finding, with the limits that hold in a folder."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from hardstand.cli.refusal import Refusal, did_you_mean
from hardstand.cli.shared import as_json, options, units
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    from hardstand.findings import Limit, Rule
    from hardstand.standards.units import System


@click.command(cls=Command, section="Ask", short_help="give the rule, formula and source of a code")
@click.argument("code", cls=Argument, required=False,
                help="the code of a finding, such as fit.box-gap; without it all are listed")
@click.option("--in", "folder", metavar="DIR", type=Path, default=".",
              help="the aeroplane's folder, whose own limits are then shown")
@options
@units
@as_json
@click.pass_obj
def explain(talk: Talk, code: str | None, folder: Path, options: tuple[str, ...], units: System) -> int:
    """Explain a finding's code: why the rule is there, its formula, its limit and where it is from.

    Where the folder sets a limit of its own, that one is shown, with its reason and the default.
    """
    from hardstand.stages import rules
    from hardstand.views.rules import rule_page, rules_page

    known = rules()
    own = own_limits(folder, options)
    if code is None:
        forms = [rule_form(one, own) for one in known.values()]
        if talk.as_json:
            talk.data({"format": 1, "rules": forms})
        else:
            talk.page(rules_page(forms, talk.measure))
        return 0
    if code not in known:
        raise Refusal(f"There is no rule {code}.", did_you_mean(
            code, known, "`hardstand explain` lists all rules."))
    form = rule_form(known[code], own)
    if talk.as_json:
        talk.data({"format": 1, **form})
    else:
        talk.page(rule_page(form, talk.measure, units))
    return 0


def own_limits(folder: Path, options: tuple[str, ...]) -> dict[str, Limit]:
    """The limits that a folder sets, by id; none where it holds no aeroplane.

    Raises Refusal for a folder that is asked for and holds none, UnreadableError for one that cannot
    be read.
    """
    from hardstand.cli.folders import MAIN, must_hold_aeroplane
    from hardstand.workspace import open_folder

    if folder == Path() and not options and not (folder / MAIN).is_file():
        return {}
    must_hold_aeroplane(folder)
    limits = open_folder(folder, options).as_built().limits
    return {name: limit for name, limit in limits.items() if limit.by_builder}


def rule_form(rule: Rule, own: Mapping[str, Limit]) -> dict[str, Any]:
    """A rule as plain data, with each limit in full; a field of the description only by its address.

    A limit that the builder sets (`own`, by id) stands with the default that it takes the place of.
    """
    from hardstand.standards.limits import BY_ID

    limits: list[dict[str, Any]] = []
    for name in filter(None, (one.strip() for one in rule.limit.split(","))):
        limit = own.get(name) or BY_ID.get(name)
        if limit is None:
            limits.append({"id": name})
            continue
        default = BY_ID[name].as_json() if name in own else None
        limits.append({**limit.as_json(), "meaning": limit.meaning, "target": limit.target,
                       "default": default})
    return {"code": rule.code, "title": rule.title, "why": rule.why, "formula": rule.formula,
            "source": rule.source, "acceptable": rule.acceptable, "limits": limits}
