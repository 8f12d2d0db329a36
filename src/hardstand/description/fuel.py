"""Fuel and the loading states: tanks, what is in them, the legs that swing, what is off."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, Strict, model_validator

from hardstand.description.fields import (
    Attitude,
    Flag,
    Gap,
    Length,
    Mass,
    Number,
    Percent,
    Point,
    Ref,
    Row,
    Table,
    Text,
    Volume,
)


class Fuel(Table):
    """`[fuel]`: density of the mix, and what counts as reserve."""

    density_kg_m3: Annotated[Number, Field(gt=500, lt=1200)]
    density_tol_kg_m3: Gap | None = None
    reserve_pct: Percent = 20.0


class Tank(Row):
    """`[[tank]]`: the liquid side of a tank item.

    `inside_mm` is the inside box (or length and diameter twice for a cylinder); without it the
    item's own shape is shrunk until it holds `capacity_ml`. Tanks with the same `order` empty
    together, 1 first; a `header` tank stays full until all others are empty.
    """

    item: Annotated[str, Ref(("item",))]
    capacity_ml: Volume
    unusable_ml: Gap = 0.0
    inside_mm: tuple[Length, Length, Length] | None = None
    order: Annotated[int, Strict(), Field(ge=1, le=50)] = 1
    header: Flag = False

    @model_validator(mode="after")
    def _holds_more_than_it_keeps(self) -> Tank:
        if self.unusable_ml > self.capacity_ml:
            raise ValueError(f"unusable_ml {self.unusable_ml:g} is more than the tank holds")
        return self


class Leg(Row):
    """`[[leg]]`: an undercarriage leg: where its wheel meets the ground, and the mass that swings."""

    item: Annotated[str, Ref(("item",))]
    place: Literal["nose", "left", "right", "tail"]
    pivot_mm: Point
    contact_mm: Point
    contact_tol_mm: Gap | None = None
    wheel_radius_mm: Length
    wheel_width_mm: Length
    moving_g: Mass
    moving_tol_g: Gap | None = None
    down_mm: Point
    up_mm: Point


class State(Row):
    """`[[state]]`: one loading or configuration of the aeroplane that is to be judged.

    `fuel_pct` is of the main tanks; header tanks are full unless `header_pct` says otherwise.
    `pitch_deg` is the attitude in which the fuel lies, nose up positive.
    """

    name: Text = ""
    gear: Literal["down", "up"] = "down"
    fuel_pct: Percent = 0.0
    header_pct: Percent = 100.0
    without: tuple[Annotated[str, Ref(("item", "mass"))], ...] = ()
    pitch_deg: Attitude = 0.0
    flown: Flag = True


class Option(Row):
    """`[[option]]`: a named alternative set of changes to the description, to be compared.

    `replace` swaps items for others (`item` out, `with` in, defined in the option's own rows);
    `set` maps addresses to values; `add` holds rows by table.
    """

    name: Text = ""
    note: Text = ""
    replace: dict[str, tuple[str, ...]] = Field(default_factory=dict)
    set: dict[str, object] = Field(default_factory=dict)
    add: dict[str, list[dict[str, object]]] = Field(default_factory=dict)
    remove: tuple[Text, ...] = ()
