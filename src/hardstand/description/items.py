"""What is in the aeroplane: items, their aerials and leads, packs on hand, places for ballast."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, model_validator

from hardstand.description.aeroplane import OrderedRange
from hardstand.description.fields import (
    Coordinate,
    Flag,
    Gap,
    Length,
    Mass,
    Number,
    Point,
    Positive,
    Ref,
    Row,
    Text,
)


def _quarter_turns(turn_deg: float) -> float:
    if turn_deg % 90.0 != 0.0:
        raise ValueError(f"{turn_deg:g} is not a multiple of 90 degrees")
    return turn_deg % 360.0


Turn = Annotated[Number, AfterValidator(_quarter_turns)]
Tilt = Annotated[Number, Field(ge=-90, le=90)]


class Item(Row):
    """`[[item]]`: one piece of equipment in the aeroplane: a part at a place.

    On a tray, `at_mm` is x, y of the middle of its base; off one, x, y, z of the middle of its box.
    `move_x_mm` and `move_y_mm` are how far it may be moved (lowest and highest coordinate).
    What is given here beside part and place overrides the part for this one item.
    """

    name: Text = ""
    part: Annotated[str, Ref(("part",))]
    on: Annotated[str, Ref(("tray",))] | None = None
    at_mm: Annotated[tuple[Coordinate, ...], Field(min_length=2, max_length=3)]
    raise_mm: Gap = 0.0
    turn_deg: Turn = 0.0
    tilt_deg: tuple[Tilt, Tilt] | None = None
    place_tol_mm: Gap | None = None
    station_tol_mm: Gap | None = None
    move_x_mm: OrderedRange | None = None
    move_y_mm: OrderedRange | None = None
    mass_g: Mass | None = None
    mass_tol_g: Gap | None = None
    size_mm: tuple[Length, Length, Length] | None = None
    cg_offset_mm: tuple[Number, Number, Number] | None = None
    misalignment_deg: tuple[Gap, Gap, Gap] | None = None
    misalignment_tol_deg: Gap | None = None
    through: Annotated[str, Ref(("hatch",))] | None = None
    supports: tuple[Annotated[str, Ref(("item", "keep_out"))], ...] = ()
    removable: Flag = False
    note: Text = ""

    @model_validator(mode="after")
    def _place_fits(self) -> Item:
        if self.on is not None and len(self.at_mm) != 2:
            raise ValueError(
                "on a tray, at_mm is two numbers (x, y of the middle of the base); "
                "the tray gives the height"
            )
        if self.on is None and len(self.at_mm) != 3:
            raise ValueError(
                "off a tray, at_mm is three numbers (x, y, z of the middle of the box)"
            )
        return self


class Antenna(Row):
    """`[[antenna]]`: an aerial of a receiver: its tip, its direction from root to tip, its length."""

    item: Annotated[str, Ref(("item",))]
    tip_mm: Point
    direction: tuple[Number, Number, Number]
    length_mm: Length = 31.0
    tip_tol_mm: Gap | None = None

    @model_validator(mode="after")
    def _has_direction(self) -> Antenna:
        if not any(self.direction):
            raise ValueError(
                "direction is 0, 0, 0: give the way from root to tip, such as [1, 0, 0]"
            )
        return self


class Lead(Row):
    """`[[lead]]`: one wire assembly between two ports, `item.port` each."""

    to: Text
    from_: Annotated[str, Field(alias="from")]
    may_be: tuple[Text, ...] = ()
    via: tuple[Text, ...] = ()
    length_mm: Length | None = None
    awg: Annotated[int, Field(ge=4, le=40)] | None = None
    note: Text = ""


class OnHand(Row):
    """`[[on_hand]]`: packs on the shelf that may take the place of one that is fitted."""

    part: Annotated[str, Ref(("part",))]
    count: Annotated[int, Field(ge=1, le=50)] = 1
    instead_of: tuple[Annotated[str, Ref(("item",))], ...] = ()


class BallastPlace(Row):
    """`[[ballast_place]]`: where ballast may be fixed, and how much at most."""

    name: Text = ""
    at_mm: Point
    most_g: Positive
    most_tol_g: Gap | None = None


class Reading(Row):
    """`[[reading]]` of `measurements.toml`: what one scale showed in a weigh-in."""

    weighing: Annotated[str, Ref(("weighing",))]
    under: Annotated[str, Ref(("leg",))] | None = None
    at_mm: Point | None = None
    reading_g: Annotated[float, Field(ge=0)]
    reading_tol_g: Gap | None = None
    resolution_g: Gap | None = None


class Weighing(Row):
    """`[[weighing]]` of `measurements.toml`: the aeroplane on scales, or on a two-point stand.

    On a stand under the wing: `stand_x_mm`, which way it `tips`, and the weight that levels it.
    """

    state: Annotated[str, Ref(("state",))]
    method: Literal["scales", "stand"] = "scales"
    date: Text = ""
    by: Text = ""
    pitch_deg: Number = 0.0
    pitch_tol_deg: Gap | None = None
    station_tol_mm: Gap | None = None
    stand_x_mm: Coordinate | None = None
    tips: Literal["nose", "tail", "level"] | None = None
    weight_g: Mass | None = None
    weight_x_mm: Coordinate | None = None
    note: Text = ""


class Measurement(Row):
    """`[[measurement]]` of `measurements.toml`: one measured value laid over the description.

    It overrides while the declared value and part are what they were when it was taken; after a
    change it is kept and shown as stale.
    """

    address: Text
    value: Number | tuple[Number, ...]
    tol: Gap | None = None
    instrument: Text = ""
    date: Text = ""
    declared: Number | tuple[Number, ...] | None = None
    part: Text = ""
