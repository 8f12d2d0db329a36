"""One field as it was typed: read by what the field holds, refused at the field where it can't stand."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from hardstand.changes import Change
from hardstand.workbench.bench import Bench
from hardstand.workbench.bodies import json_in
from hardstand.workbench.fields import holds_text
from hardstand.workbench.outcome import Outcome


def typed_value(address: str, typed: str) -> Any:
    """What was typed, as the file is to hold it; nothing typed takes the field out.

    A field of text takes what was typed as it is; any other, a number, a list, true or false, and
    what is none of these stays text, such as a number with its unit.

    >>> typed_value("item.rx.at_mm", "[260, -34]"), typed_value("item.rx.name", "12")
    ([260, -34], '12')
    >>> typed_value("mass.fin.mass_g", "14.5 oz"), typed_value("item.rx.note", " ")
    ('14.5 oz', None)
    """
    text = typed.strip()
    if not text:
        return None
    if holds_text(address):
        return text
    try:
        found = tomllib.loads(f"value = {text}")
    except (ValueError, RecursionError):
        return text
    return found["value"] if len(found) == 1 else text


def put_field(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """Put what was typed at an address where the value that the page showed still stands."""
    address = values.get("address", "")
    old = json_in(values.get("old", "null"))
    new = typed_value(address, values.get("typed", ""))
    return bench.change([Change(address, old, new)], f"{address} from its page")
