"""The field types that every table of the aeroplane's file is built from.

A row refuses unknown keys, is frozen once read, and takes a string with a unit ("14.5 oz") wherever
its field's name ends in a unit. A `Ref` marks a field that names a row of another table, so that
unknown ids can be found without validating anything else.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, Strict, StringConstraints, model_validator

from hardstand.standards.units import from_text, split_suffix

FARTHEST_MM = 20_000.0  # no model aeroplane is 20 m long: a larger number is a slip of unit


@dataclass(frozen=True, slots=True)
class Ref:
    """Marks a field whose text is the id of a row in one of `tables`."""

    tables: tuple[str, ...]


Number = Annotated[float, Strict(), Field(allow_inf_nan=False)]
Positive = Annotated[float, Strict(), Field(allow_inf_nan=False, gt=0)]
NotNegative = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=0)]
Count = Annotated[int, Strict(), Field(ge=0, le=1000)]
Coordinate = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=-FARTHEST_MM, le=FARTHEST_MM)]
Length = Annotated[float, Strict(), Field(allow_inf_nan=False, gt=0, le=FARTHEST_MM)]
Gap = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=0, le=FARTHEST_MM)]
Mass = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=0, le=200_000)]
Percent = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=0, le=100)]
Flag = Annotated[bool, Strict()]
Text = Annotated[str, StringConstraints(max_length=400)]
Id = Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9][A-Za-z0-9_-]*$", max_length=60)]

Point = tuple[Coordinate, Coordinate, Coordinate]
PlanPoint = tuple[Coordinate, Coordinate]
Outline = Annotated[tuple[PlanPoint, ...], Field(min_length=3, max_length=400)]
Range = tuple[Number, Number]


@cache
def _unit_fields(model: type[BaseModel]) -> dict[str, str]:
    """Field name → unit, for the fields of a model whose names end in one."""
    found = ((name, split_suffix(name)[1]) for name in model.model_fields)
    return {name: unit for name, unit in found if unit is not None}


def _converted(value: Any, unit: str) -> Any:
    """The value with every string in it read as a quantity in `unit`; lists are walked."""
    if isinstance(value, str):
        return from_text(value, unit)
    if isinstance(value, list):
        return [_converted(one, unit) for one in value]
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
        return {k: _converted(v, units[k]) if k in units else v for k, v in data.items()}


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


def simple_outline(points: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
    """An outline as written, or a ValueError when it has no area or crosses itself.

    >>> simple_outline(((0.0, 0.0), (10.0, 0.0), (10.0, 5.0)))
    ((0.0, 0.0), (10.0, 0.0), (10.0, 5.0))
    """
    from shapely import Polygon
    from shapely.validation import explain_validity

    polygon = Polygon(points)
    if not polygon.is_valid:
        raise ValueError(f"the outline crosses or touches itself ({explain_validity(polygon)})")
    if polygon.area < 1e-6:
        raise ValueError("the outline encloses no area")
    return points
