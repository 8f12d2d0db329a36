"""Addresses as a builder types them: checked word by word, with the nearest names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hardstand.changes import AddressError, AddRow, AnyChange, Change, parse_address
from hardstand.cli.refusal import Refusal, did_you_mean
from hardstand.description.aliases import names_in, present_id
from hardstand.description.model import ROWS, SINGLES
from hardstand.standing import stand_of

if TYPE_CHECKING:
    from hardstand.workspace import Workspace


def checked_address(workspace: Workspace, text: str) -> str:
    """The address, where kind, id and field exist; raises Refusal naming the word that does not."""
    try:
        where = parse_address(text)
    except AddressError as error:
        raise Refusal(f"{error}.") from None
    if where.index is not None:
        raise Refusal(f"{text} is part of a value.",
                      f"Give the whole value of {text.removesuffix('.' + where.index)}.")
    model = ROWS.get(where.kind) or SINGLES.get(where.kind)
    if model is None:
        raise Refusal(f"There is no kind of row {where.kind}.", did_you_mean(
            where.kind, [*ROWS, *SINGLES], "`hardstand schema` lists them."))
    if where.kind in ROWS:
        _check_id(workspace, where.kind, where.id)
    elif where.id is not None:
        raise Refusal(f"{where.kind} stands once and has no ids.", f"Write {where.kind}.{where.field}.")
    fields = [info.alias or name for name, info in model.model_fields.items()]
    if where.field not in fields:
        raise Refusal(f"{where.kind} has no field {where.field}.", did_you_mean(
            where.field, fields, f"Its fields are {', '.join(fields)}."))
    if where.field == "id":
        raise Refusal("An id is the name that other rows and the record use.",
                      f"Rename it with `hardstand rename {where.kind}.{where.id} NEW-ID`.")
    return text


def _check_id(workspace: Workspace, kind: str, row_id: str | None) -> None:
    ids = [str(row.get("id")) for row in workspace.read.raw.rows.get(kind, [])]
    if row_id is None:
        raise Refusal(f"The address names no {kind}.", f"Write {kind}.ID.field; the ids are "
                      f"{', '.join(ids[:12]) or 'none yet'}.")
    now = present_id(kind, row_id, names_in(workspace.read.raw.rows.get("alias", [])))
    if row_id not in ids and now != row_id:
        raise Refusal(f"There is no {kind} {row_id}.", f"It is called {now} now.")
    if row_id not in ids:
        raise Refusal(f"There is no {kind} {row_id}.", did_you_mean(
            row_id, ids, f"The ids are {', '.join(ids[:12]) or 'none yet'}."))


def place_of(workspace: Workspace, change: AnyChange) -> str:
    """File and line that a change touches, or nothing for a row that is added."""
    if isinstance(change, AddRow):
        return ""
    address = change.address if isinstance(change, Change) else f"{change.kind}.{change.id}.id"
    found = stand_of(workspace.read.raw, address)
    if found["file"] is None or found["line"] is None:
        return str(found["words"])
    return f"{found['file']}:{found['line']}"
