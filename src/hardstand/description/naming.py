"""Where rows name other rows, beyond plain reference fields: each form with an id made another."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from hardstand.changes import AddressError, parse_address
from hardstand.description.ends import ENDS_OF
from hardstand.description.model import ROWS, SINGLES
from hardstand.description.references import ref_fields

# What a finding is about has no kind beside it. Where rows of two kinds have one id, it is the
# thing in the aeroplane, not what that is made of or how it was recorded.
SELDOM_MEANT = ("part", "port", "option", "measurement", "weighing", "reading")


@dataclass(frozen=True, slots=True)
class Rename:
    """A kind of row, the id that one of them has and the one it gets.

    `shared` are the other kinds that have a row with the old id too.
    """

    kind: str
    old: str
    new: str
    shared: frozenset[str] = frozenset()

    def word(self, value: Any) -> Any:
        """An id, or a list of ids, of this kind."""
        if isinstance(value, list):
            return [self.word(one) for one in value]
        return self.new if value == self.old else value

    def address(self, text: str) -> str:
        """An address of a field.

        >>> Rename("item", "rx", "receiver").address("item.rx.at_mm")
        'item.receiver.at_mm'
        """
        try:
            where = parse_address(text)
        except AddressError:
            return text
        if (where.kind, where.id) != (self.kind, self.old):
            return text
        return ".".join(one for one in (self.kind, self.new, where.field, where.index) if one)

    def row(self, text: str) -> str:
        """A row as `kind.id`."""
        return f"{self.kind}.{self.new}" if text == f"{self.kind}.{self.old}" else text

    @property
    def is_meant_alone(self) -> bool:
        """Whether a bare id speaks of a row of this kind."""
        return self.kind not in SELDOM_MEANT or not self.shared


def renamed_row(table: str, row: Mapping[str, Any], what: Rename) -> dict[str, Any]:
    """A raw row or table with every mention of the renamed row, itself included, made the new id.

    >>> renamed_row("lead", {"id": "L1", "from": "rx.out-1", "to": "hub.in"}, Rename("item", "rx", "a"))
    {'id': 'L1', 'from': 'a.out-1', 'to': 'hub.in'}
    """
    new = dict(row)
    for field, tables in ref_fields(ROWS.get(table) or SINGLES[table]):
        if what.kind in tables and field in new and not _is_generic(table, row, field):
            new[field] = what.word(new[field])
    if table == what.kind:
        new["id"] = what.word(row.get("id"))
    _name_ends(table, new, what)
    special = {"accept": _accept, "measurement": _measurement, "alias": _alias,
               "option": _option}.get(table)  # fmt: skip
    if special is not None:
        special(new, what)
    return new


def _is_generic(table: str, row: Mapping[str, Any], field: str) -> bool:
    """Whether a part extends the catalogue's part of the same id, which keeps its name."""
    return table == "part" and field == "extends" and row.get("extends") == row.get("id")


def _name_ends(table: str, row: dict[str, Any], what: Rename) -> None:
    if what.kind in ("item", "joint"):
        for field in ENDS_OF.get(table, ()):
            if field in row:
                row[field] = _end(row[field], what)


def _end(value: Any, what: Rename) -> Any:
    if isinstance(value, list):
        return [_end(one, what) for one in value]
    item, point, port = str(value).partition(".")
    if item != what.old or not (point or what.kind == "joint"):
        return value
    return f"{what.new}{point}{port}"


def _accept(row: dict[str, Any], what: Rename) -> None:
    if what.is_meant_alone and "about" in row:
        row["about"] = what.word(row["about"])


def _measurement(row: dict[str, Any], what: Rename) -> None:
    if "address" in row:
        row["address"] = what.address(row["address"])
    if what.kind == "part" and "part" in row:
        row["part"] = what.word(row["part"])


def _alias(row: dict[str, Any], what: Rename) -> None:
    if str(row.get("id")).partition(".")[0] == what.kind:
        row["now"] = what.word(row.get("now"))


def _option(row: dict[str, Any], what: Rename) -> None:
    if isinstance(row.get("replace"), dict):
        tables = row["replace"].keys() - {"with"}
        row["replace"] = {
            key: what.word(ids) if key == what.kind or (key == "with" and what.kind in tables) else ids
            for key, ids in row["replace"].items()
        }
    if isinstance(row.get("remove"), list):
        row["remove"] = [what.row(one) for one in row["remove"]]
    if isinstance(row.get("add"), dict):
        row["add"] = {table: [renamed_row(table, one, what) for one in rows]
                      for table, rows in row["add"].items()}  # fmt: skip
    if isinstance(row.get("set"), dict):
        row["set"] = {what.address(key): _set(key, value, what) for key, value in row["set"].items()}


def _set(key: str, value: Any, what: Rename) -> Any:
    """The value that an option puts at an address, as that field's value in its row."""
    where = parse_address(key)
    return renamed_row(where.kind, {"id": where.id, where.field: value}, what)[where.field]
