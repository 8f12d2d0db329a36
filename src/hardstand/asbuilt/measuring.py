"""A measurement as the bench takes it, made a row with what is declared at this time beside it."""

from __future__ import annotations

from typing import Any

from hardstand.asbuilt.measurements import declared_now, part_now
from hardstand.changes import AddRow, parse_address
from hardstand.description.addresses import wrong_measurement
from hardstand.description.aliases import names_of, present_address
from hardstand.description.catalogue import resolved_parts
from hardstand.description.new_ids import free_id
from hardstand.description.problems import cut
from hardstand.description.read import Read
from hardstand.standards.units import UnitError, from_text, split_suffix


class MeasureError(ValueError):
    """A measurement cannot be written down like this; `hint` says what to do."""

    def __init__(self, what: str, hint: str = "") -> None:
        self.hint = hint
        super().__init__(what)


def measurement_row(read: Read, address: str, value: Any, *, tol: float | str | None = None,
                    instrument: str = "", date: str = "") -> AddRow:
    """A `[[measurement]]` row of a value at an address, with the declared value and part of now.

    `value` is a number, a text with a unit, or a list of two or three of these; `tol` the half-width
    of 95 % in the same way. Numbers are in the unit of the field's name. A former id is taken as the
    present one. Raises MeasureError where there is no such field, or nothing to measure there.
    """
    description = read.description
    at = present_address(address, names_of(description.alias))
    told = wrong_measurement(read.raw, at, 0.0)
    if told is not None and told[0] == "address":
        raise MeasureError(*_said(told))
    where = parse_address(at)
    number = in_unit(value, where.field)
    declared = _plain(declared_now(description, at, resolved_parts(description)))
    told = wrong_measurement(read.raw, at, number)
    if told is not None:
        now = "" if declared is None else f"Declared there is {cut(declared)}."
        raise MeasureError(f"{cut(number)} cannot stand at {at}.", now)
    half = None if tol is None else in_unit(tol, where.field, is_tolerance=True)
    if half is not None and (isinstance(half, list) or half < 0.0):
        raise MeasureError(f"{tol} is no tolerance.", "Give the half-width as one number, 0 or more.")
    row = {
        "id": free_id(f"{where.id or where.kind}-{split_suffix(where.field)[0].replace('_', '-')}",
                      read.ids_taken("measurement")),
        "address": at,
        "value": number,
        "tol": half,
        "instrument": instrument or None,
        "date": date or None,
        "declared": declared,
        "part": part_now(description, at) or None,
    }  # fmt: skip
    return AddRow("measurement", {key: one for key, one in row.items() if one is not None})


def in_unit(value: Any, field: str, *, is_tolerance: bool = False) -> Any:
    """A number, a text with a unit or a list of these, as numbers in the unit of a field's name.

    >>> in_unit("14.5 oz", "mass_g"), in_unit([1, "2 in"], "at_mm")
    (411.068, [1, 50.8])
    """
    if isinstance(value, list):
        return [in_unit(one, field, is_tolerance=is_tolerance) for one in value]
    if isinstance(value, int | float) and not isinstance(value, bool):
        return value
    unit = split_suffix(field)[1]
    try:
        if isinstance(value, str) and unit is not None:
            return _plain(round(from_text(value, unit, difference=is_tolerance), 6))
    except UnitError as error:
        raise MeasureError(f"{error}.") from None
    raise MeasureError(f"{value} is no number.", f"{field} is a number, or text with a unit.")


def _plain(value: Any) -> Any:
    """A value as a person writes it: whole numbers without a point."""
    if isinstance(value, tuple | list):
        return [_plain(one) for one in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value


def _said(told: tuple[str, str, str, str]) -> tuple[str, str]:
    """What is wrong and what to do as sentences."""
    _, what, expected, hint = told
    words = hint or (f"expected {expected}" if expected else "")
    return f"{what[:1].upper()}{what[1:]}.", f"{words[:1].upper()}{words[1:]}" + (
        "" if not words or words.endswith("?") else ".")
