"""The field types that every table of the aeroplane's file is built from.

A row refuses unknown keys, is frozen once read, and takes a string with a unit ("14.5 oz") wherever
its field's name ends in a unit. A `Ref` marks a field that names a row of another table, so that
unknown ids can be found without validating anything else. Bounds are wide: they catch slips of unit
and impossible numbers, not unusual aeroplanes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    Strict,
    StringConstraints,
    model_validator,
)

from hardstand.standards.units import UnitError, from_text, is_tolerance, split_suffix

FARTHEST_MM = 20_000.0  # no model aeroplane is 20 m long: a larger number is a slip of unit
HEAVIEST_G = 200_000.0
LEAST = 1e-6  # a nanometre, a microgram: less is a slip, and its inverse is no number
LARGEST = 1e9  # a bound where nothing better is known, so that no sum or product leaves the numbers


@dataclass(frozen=True, slots=True)
class Ref:
    """Marks a field whose text is the id of a row in one of `tables`."""

    tables: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Misread:
    """Text in a numeric field that is no quantity of its unit: refused as no number, `why` is said."""

    text: str
    why: str

    def __str__(self) -> str:
        return f'"{self.text}"'


def _none_or_enough(value: float) -> float:
    """The value, or a ValueError where it is too small to be meant but is not 0."""
    if 0.0 < abs(value) < LEAST:
        raise ValueError(f"{value:g} is too small to be meant: write 0, or at least {LEAST:g}")
    return value


Enough = AfterValidator(_none_or_enough)
Number = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=-LARGEST, le=LARGEST)]
Positive = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=LEAST, le=LARGEST)]
NotNegative = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=0, le=LARGEST), Enough]
Count = Annotated[int, Strict(), Field(ge=0, le=1000)]
Coordinate = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=-FARTHEST_MM, le=FARTHEST_MM)]
Length = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=LEAST, le=FARTHEST_MM)]
Gap = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=0, le=FARTHEST_MM), Enough]
Mass = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=0, le=HEAVIEST_G), Enough]
Weight = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=LEAST, le=HEAVIEST_G)]
Volume = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=LEAST, le=100_000)]
Speed = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=LEAST, le=400)]
Attitude = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=-90, le=90)]
Temperature = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=-273.15, le=3000)]
Percent = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=0, le=100)]
Flag = Annotated[bool, Strict()]
ID_PATTERN = r"^[A-Za-z0-9][A-Za-z0-9_-]*$"
TEXT_PATTERN = r"^[^\x00-\x08\x0b-\x1f\x7f-\x9f]*$"
# What a text of each pattern is, for the one who has written another.
PATTERNS = {
    ID_PATTERN: "letters, figures, hyphens and underscores, beginning with a letter or figure",
    TEXT_PATTERN: "characters that can be seen, tabs and line ends",
}
Text = Annotated[str, StringConstraints(max_length=400, pattern=TEXT_PATTERN)]
Id = Annotated[str, StringConstraints(max_length=60, pattern=ID_PATTERN)]

Point = tuple[Coordinate, Coordinate, Coordinate]
PlanPoint = tuple[Coordinate, Coordinate]
Outline = Annotated[tuple[PlanPoint, ...], Field(min_length=3, max_length=400)]
Range = tuple[Number, Number]


@cache
def _unit_fields(model: type[BaseModel]) -> dict[str, str]:
    """Field name → unit, for the fields of a model whose names end in one."""
    found = ((name, split_suffix(name)[1]) for name in model.model_fields)
    return {name: unit for name, unit in found if unit is not None}


def _converted(value: Any, field: str, unit: str, depth: int = 3) -> Any:
    """The value with every text in it read as a quantity in `unit`; lists are walked, a few deep."""
    if isinstance(value, str):
        try:
            return from_text(value, unit, difference=is_tolerance(field))
        except UnitError as error:
            return Misread(value, str(error))
    if isinstance(value, list) and depth:
        return [_converted(one, field, unit, depth - 1) for one in value]
    return value


class Table(BaseModel):
    """A table of the file that stands once and needs no id, such as `[cg_mark]`."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    @model_validator(mode="before")
    @classmethod
    def _read_units(cls, data: Any) -> Any:
        if not isinstance(data, Mapping):
            return data
        units = _unit_fields(cls)
        if not any(isinstance(v, str | list) and k in units for k, v in data.items()):
            return data
        return {k: _converted(v, k, units[k]) if k in units else v for k, v in data.items()}


class Row(Table):
    """A row of an array of tables, such as `[[item]]`, known by its id."""

    id: Id


def ordered(low_high: tuple[float, float]) -> tuple[float, float]:
    """A range as written, or a ValueError in plain words when its ends are the wrong way round.

    >>> ordered((243.0, 260.0))
    (243.0, 260.0)
    """
    if low_high[0] > low_high[1]:
        raise ValueError(f"the lower end {low_high[0]:g} is above the upper end {low_high[1]:g}")
    return low_high
