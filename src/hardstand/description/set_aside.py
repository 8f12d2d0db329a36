"""What the bench recorded, or the builder took on, of what is not there with the options as laid.

Such a row says nothing of this aeroplane: it is set aside by name, and stands again without the
option. A row that names nothing which the files hold anywhere is a slip, and told of elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from hardstand.changes import AddRow
from hardstand.description.addresses import told_of, wrong_measurement
from hardstand.description.aliases import names_in, present_address
from hardstand.description.model import ROWS
from hardstand.description.option_changes import located_changes
from hardstand.description.raw import Raw
from hardstand.description.weighed import altering

LOOSE = (("item", "supports"), ("state", "without"))  # naming what is gone there asks for nothing


@dataclass(frozen=True, slots=True)
class SetAside:
    """A row that does not apply with the options as laid: its table and id, about what, and why."""

    table: str
    id: str
    about: str
    why: str

    def as_json(self) -> dict[str, str]:
        """The row as plain data."""
        return {"table": self.table, "id": self.id, "about": self.about, "why": self.why}


def brought_by_options(base: Raw) -> Raw:
    """The rows that any of the options adds, as raw tables of their own."""
    found = Raw(base.texts)
    for row in base.rows.get("option", []):
        for _, change in located_changes(row):
            if isinstance(change, AddRow) and change.kind in ROWS:
                found.rows.setdefault(change.kind, []).append(change.row)
    return found


def set_aside(raw: Raw, base: Raw, options: Sequence[str] = ()) -> tuple[SetAside, ...]:
    """Take out of `raw`, in place, the rows that do not apply there; returns them.

    `raw` holds the tables with `options` laid over, `base` those without any: it may be the same only
    where nothing is described as an option.

    >>> from hardstand.description.raw import Place
    >>> base = Raw({}, {"mass": [{"id": "hub"}], "accept": [{"id": "a", "about": ["hub"]}]})
    >>> raw = Raw({}, {"accept": [{"id": "a", "about": ["hub"]}]}, places={"accept": [Place("", ())]})
    >>> set_aside(raw, base)[0].why, raw.rows["accept"]
    ('there is no hub', [])
    """
    if not base.rows.get("option") and raw is base:
        return ()
    brought = brought_by_options(base)
    found = [*_measurements(raw, base, brought), *_accepts(raw, base, brought),
             *_weighings(raw, base, options), *_on_hand(raw, base)]
    for one in found:
        _take_out(raw, one.table, "id", one.id)
        if one.table == "weighing":
            _take_out(raw, "reading", "weighing", one.id)
    for table, field in LOOSE:
        _let_go(raw, base, table, field)
    return tuple(found)


def _measurements(raw: Raw, base: Raw, brought: Raw) -> Iterator[SetAside]:
    names = names_in(raw.rows.get("alias", []))
    for row in raw.rows.get("measurement", []):
        text, value = row.get("address"), row.get("value")
        if not isinstance(text, str) or not isinstance(row.get("id"), str):
            continue
        address = present_address(text, names)
        wrong = wrong_measurement(raw, address, value)
        if wrong and not all(wrong_measurement(one, address, value) for one in (base, brought)):
            yield SetAside("measurement", row["id"], address, wrong[1])


def _accepts(raw: Raw, base: Raw, brought: Raw) -> Iterator[SetAside]:
    known, elsewhere = told_of(raw), told_of(base) | told_of(brought)
    for row in raw.rows.get("accept", []):
        gone = [word for word in _words(row.get("about")) if word in elsewhere - known]
        if gone and isinstance(row.get("id"), str):
            yield SetAside("accept", row["id"], str(row.get("code", "")),
                           f"there is no {' and no '.join(gone)}")


def _weighings(raw: Raw, base: Raw, options: Sequence[str]) -> Iterator[SetAside]:
    """Weigh-ins of another aeroplane than this: on legs or in states that are gone, or of other weight."""
    changing = altering(base)
    laid = changing & set(options)
    for row in raw.rows.get("weighing", []):
        name, state = row.get("id"), row.get("state")
        if not isinstance(name, str):
            continue
        legs = [str(one["under"]) for one in raw.rows.get("reading", [])
                if one.get("weighing") == name and isinstance(one.get("under"), str)]
        gone = [*_gone(raw, base, "state", [str(state)]), *_gone(raw, base, "leg", legs)]
        other = sorted(laid ^ (changing & set(_words(row.get("options")))))
        if gone:
            yield SetAside("weighing", name, str(state), f"there is no {gone[0]}")
        elif other:
            said = "without" if other[0] in laid else "with"
            yield SetAside("weighing", name, str(state), f"it was weighed {said} the option {other[0]}")


def _on_hand(raw: Raw, base: Raw) -> Iterator[SetAside]:
    """Packs on hand for items all of which are gone: without a name they would go anywhere."""
    for row in raw.rows.get("on_hand", []):
        named = _words(row.get("instead_of"))
        gone = _gone(raw, base, "item", named)
        if gone and len(gone) == len(named) and isinstance(row.get("id"), str):
            yield SetAside("on_hand", row["id"], ", ".join(gone), f"there is no {gone[0]}")
        elif gone:
            row["instead_of"] = [one for one in named if one not in gone]


def _gone(raw: Raw, base: Raw, table: str, names: Sequence[str]) -> list[str]:
    """Those of the names that a table has in the base and no longer has."""
    there, before = raw.ids_of(table), base.ids_of(table)
    return [] if table in raw.unsure else [one for one in names if one in before - there]


def _let_go(raw: Raw, base: Raw, table: str, field: str) -> None:
    """Take what is gone out of a list in which it asks for nothing, where the base wrote that list."""
    there, before = raw.ids(), base.ids()
    gone = set().union(*before.values()) - set().union(*there.values())
    for row, place in zip(raw.rows.get(table, []), raw.places.get(table, []), strict=True):
        written_here = place.path[0] != "option" and field not in place.overlaid
        if written_here and gone & set(_words(row.get(field))):
            row[field] = [one for one in row[field] if one not in gone]


def _take_out(raw: Raw, table: str, field: str, value: str) -> None:
    """Take out the rows with that value: a reading of a weigh-in may have no id that can be read."""
    rows, places = raw.rows.get(table, []), raw.places.get(table, [])
    for at in [at for at, row in enumerate(rows) if row.get(field) == value][::-1]:
        del rows[at]
        del places[at]


def _words(value: Any) -> list[str]:
    return [one for one in value if isinstance(one, str)] if isinstance(value, list) else []
