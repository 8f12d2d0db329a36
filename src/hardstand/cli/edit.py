"""`hardstand set` and `hardstand apply`: changes through the one way that all changes take."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import click

from hardstand.cli.check import assessed
from hardstand.cli.folders import must_hold_aeroplane
from hardstand.cli.making import look_option, make
from hardstand.cli.refusal import Refusal, did_you_mean
from hardstand.cli.shared import as_json, folder, options
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk

_YES = click.option("--yes", is_flag=True, help="make the change without asking")


@click.command("set", cls=Command, section="Change", short_help="put a value at an address")
@click.argument("address", cls=Argument, help="where: kind.id.field, such as item.hub.turn_deg")
@click.argument("value", cls=Argument, help='what: 90, "[260, -34]", "14.5 oz"; - takes the field out')
@folder
@options
@look_option
@as_json
@click.pass_obj
def set_value(talk: Talk, address: str, value: str, folder: Path, options: tuple[str, ...],
              look: bool) -> int:
    """Put a value at an address of the description, and say what that does to the verdict.

    Comments and layout of the file stay. With an option laid over, the change goes to the option
    where the option sets that address. A change that would make the folder unreadable is refused.
    """
    from hardstand.cli.addresses import checked_address
    from hardstand.workspace import open_folder, set_field

    must_hold_aeroplane(folder)
    workspace = open_folder(folder, options)
    change = set_field(workspace, checked_address(workspace, address), value_from(value))
    return make(talk, workspace, [change], f"set {address} to {value}", ask=False, look=look)


def value_from(text: str) -> Any:
    """A value as it is typed: as the file would hold it, else as text; `-` is no value.

    >>> value_from("90"), value_from("[260, -34]"), value_from("14.5 oz"), value_from("-")
    (90, [260, -34], '14.5 oz', None)
    """
    if text == "-":
        return None
    try:
        found = tomllib.loads(f"value = {text}")
    except (ValueError, RecursionError):  # also of a number with thousands of digits
        return text
    return found["value"] if len(found) == 1 else text


@click.command("apply", cls=Command, section="Change", short_help="make the remedy of a finding")
@click.argument("finding", cls=Argument, help="its number in `hardstand check`, or its code")
@folder
@options
@look_option
@_YES
@as_json
@click.pass_obj
def apply(talk: Talk, finding: str, folder: Path, options: tuple[str, ...], look: bool, yes: bool) -> int:
    """Make the change that a finding's remedy proposes: shown first, then asked, then made.

    The numbers are those of `hardstand check` for the folder as it is now.
    """
    from hardstand.changes import change_from_json
    from hardstand.views.trouble import trouble_page
    from hardstand.views.words import sentence
    from hardstand.workspace import open_folder

    must_hold_aeroplane(folder)
    form = assessed(talk, folder, options)
    chosen = chosen_finding(form["findings"], finding)
    remedy = chosen["remedy"]
    if not remedy or not remedy["changes"]:
        said = f"Its remedy is for your hands: {remedy['text']}" if remedy else ""
        raise Refusal(f"There is no change to make for {chosen['code']}.", said)
    changes = [change_from_json(one) for one in remedy["changes"]]
    if not talk.as_json:
        effects = sentence("; ".join(remedy["effects"])) if remedy["effects"] else ""
        talk.say(trouble_page(sentence(remedy["text"]), effects, talk.measure))
    about = ", ".join(chosen["about"])
    return make(talk, open_folder(folder, options), changes, f"remedy of {chosen['code']} ({about})",
                ask=not yes, look=look)


def chosen_finding(findings: Sequence[dict[str, Any]], wanted: str) -> dict[str, Any]:
    """The finding with a number or a code; raises Refusal where there is none or more than one."""
    count = len(findings)
    if wanted.isascii() and wanted.isdigit():
        if 1 <= int(wanted[:9]) <= count:
            return findings[int(wanted) - 1]
        raise Refusal(f"There is no finding {wanted}.", f"`hardstand check` numbers {count} now.")
    found = [at for at, one in enumerate(findings, 1) if one["code"] == wanted]
    if len(found) == 1:
        return findings[found[0] - 1]
    if found:
        raise Refusal(f"{wanted} is found {len(found)} times.",
                      f"Give its number: {', '.join(map(str, found))}.")
    raise Refusal(f"No finding has the code {wanted}.", did_you_mean(
        wanted, {one["code"] for one in findings}, "`hardstand check` lists the findings."))
