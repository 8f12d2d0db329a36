"""What is another value now than it was: between two states of a description, field by field."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hardstand.changes import same_value
from hardstand.description.raw import Raw
from hardstand.views.number import value_in_file

_LONG = 60  # characters of a value that are shown


@dataclass(frozen=True)
class Difference:
    """A field with what stood there and what stands there now; None where nothing did or does."""

    address: str
    was: Any
    now: Any

    @property
    def words(self) -> str:
        """Both values.

        >>> Difference("item.rx.at_mm", [260, 0], [270, 0]).words
        'was [260, 0], is now [270, 0]'
        """
        return f"was {_short(self.was)}, is now {_short(self.now)}"


class ChangedSinceError(ValueError):
    """What was found holds for another description than stands there now."""

    def __init__(self, differences: Sequence[Difference]) -> None:
        self.differences = tuple(differences)
        super().__init__("; ".join(f"{one.address} {one.words}" for one in differences))


def differences(before: Raw, now: Raw) -> list[Difference]:
    """The fields that differ, with the options laid over; a row's own order among others is none.

    >>> one, other = Raw({}, {"item": [{"id": "rx", "turn_deg": 0}]}), Raw({}, {"item": [{"id": "rx"}]})
    >>> differences(one, other)
    [Difference(address='item.rx.turn_deg', was=0, now=None)]
    """
    was, stands = dict(_fields(before)), dict(_fields(now))
    return [Difference(address, was.get(address), stands.get(address))
            for address in dict.fromkeys([*was, *stands])
            if not same_value(was.get(address), stands.get(address))]  # fmt: skip


def _fields(raw: Raw) -> Iterator[tuple[str, Any]]:
    for name, table in raw.singles.items():
        yield from _of(name, table)
    for name, rows in raw.rows.items():
        for number, row in enumerate(rows, 1):
            yield from _of(f"{name}.{_named(name, row, number)}", row)


def _of(name: str, table: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(table, Mapping):
        yield from ((f"{name}.{field}", value) for field, value in table.items())
    else:
        yield name, table


def _named(table: str, row: Any, number: int) -> str:
    """How a row is known: by its id, a port by its part too, and by its number where it has none."""
    known = row if isinstance(row, Mapping) else {}
    own = str(known.get("id", number))
    return f"{known.get('part')}.{own}" if table == "port" else own


def _short(value: Any) -> str:
    text = value_in_file(value)
    return text if len(text) <= _LONG else f"{text[: _LONG - 1]}…"
