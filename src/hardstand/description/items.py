"""What is in the aeroplane: items, their aerials and leads, packs on hand, places for ballast."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import (
    AfterValidator,
    Discriminator,
    Field,
    Strict,
    StringConstraints,
    Tag,
    model_validator,
)

from hardstand.description.aeroplane import OrderedRange
from hardstand.description.electrics import LeadElectrics
from hardstand.description.fields import (
    PATTERNS,
    Attitude,
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
    Weight,
)


def _quarter_turns(turn_deg: float) -> float:
    if turn_deg % 90.0 != 0.0:
        raise ValueError(f"{turn_deg:g} is not a multiple of 90 degrees")
    return turn_deg % 360.0


Turn = Annotated[Number, Field(ge=-3600, le=3600), AfterValidator(_quarter_turns)]
Deviation = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=0, le=90)]
LEAST_DIRECTION = 1e-3  # shorter than this it is a slip, and its squares would be lost
Component = Annotated[float, Strict(), Field(allow_inf_nan=False, ge=-10_000, le=10_000)]
END = r"^[A-Za-z0-9][A-Za-z0-9_-]*(\.[A-Za-z0-9][A-Za-z0-9_-]*)?$"
PATTERNS[END] = "an item and its port, such as rx-left.out-3, or the name of a joint"
End = Annotated[str, StringConstraints(max_length=121, pattern=END)]
UNKNOWN = "unknown"


def _one_or_several(value: object) -> str:
    return SEVERAL if isinstance(value, list | tuple) else ONE


# Names of the two forms of a measured value; validation puts them into the paths of its errors.
ONE, SEVERAL = "one number", "several numbers"
Value = Annotated[
    Annotated[Number, Tag(ONE)]
    | Annotated[tuple[Number, ...], Field(min_length=2, max_length=3), Tag(SEVERAL)],
    Discriminator(_one_or_several),
]


class Item(Row):
    """`[[item]]`: one piece of equipment in the aeroplane: a part at a place.

    On a tray, `at_mm` is x, y of the middle of its base; off one, x, y, z of the middle of its box.
    `move_x_mm` and `move_y_mm` are how far it may be moved (lowest and highest coordinate).
    `supports` names what it is fixed to or may touch beside its own tray (items, keep-outs, trays):
    between the two no distance is asked for.
    What is given here beside part and place overrides the part for this one item.
    """

    name: Text = ""
    part: Annotated[str, Ref(("part",))]
    on: Annotated[str, Ref(("tray",))] | None = None
    at_mm: Annotated[tuple[Coordinate, ...], Field(min_length=2, max_length=3)]
    raise_mm: Gap = 0.0
    turn_deg: Turn = 0.0
    tilt_deg: tuple[Attitude, Attitude] | None = None
    place_tol_mm: Gap | None = None
    station_tol_mm: Gap | None = None
    move_x_mm: OrderedRange | None = None
    move_y_mm: OrderedRange | None = None
    mass_g: Mass | None = None
    mass_tol_g: Gap | None = None
    size_mm: tuple[Length, Length, Length] | None = None
    cg_offset_mm: Point | None = None
    misalignment_deg: tuple[Deviation, Deviation, Deviation] | None = None
    misalignment_tol_deg: Deviation | None = None
    through: Annotated[str, Ref(("hatch",))] | None = None
    supports: tuple[Annotated[str, Ref(("item", "keep_out", "tray"))], ...] = ()
    removable: Flag = False
    set_v: Positive | None = None
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
    direction: tuple[Component, Component, Component]
    length_mm: Length = 31.0
    tip_tol_mm: Gap | None = None

    @model_validator(mode="after")
    def _has_direction(self) -> Antenna:
        if max(map(abs, self.direction)) < LEAST_DIRECTION:
            raise ValueError(
                "direction is next to nothing: give the way from root to tip, such as [1, 0, 0]"
            )
        return self


class Lead(LeadElectrics):
    """`[[lead]]`: one wire assembly between two ports, `item.port` each.

    An end without a point is a joint between leads, or something that is no item, under a name of
    its own. An end that nobody knows any more is `unknown`; `may_be` then lists what it may be.
    """

    from_: Annotated[End, Field(alias="from")]
    to: End
    may_be: tuple[End, ...] = ()
    via: tuple[Annotated[str, Ref(("hole",))], ...] = ()
    length_mm: Length | None = None
    awg: Annotated[int, Strict(), Field(ge=4, le=40)] | None = None
    note: Text = ""

    @model_validator(mode="after")
    def _two_ends(self) -> Lead:
        if self.from_ == self.to:
            raise ValueError(f"both ends of this lead are {self.to}")
        if self.may_be and UNKNOWN not in (self.from_, self.to):
            raise ValueError('may_be goes with an end that is "unknown", and both ends are named')
        return self


class OnHand(Row):
    """`[[on_hand]]`: packs on the shelf that may take the place of one that is fitted."""

    part: Annotated[str, Ref(("part",))]
    count: Annotated[int, Strict(), Field(ge=1, le=50)] = 1
    instead_of: tuple[Annotated[str, Ref(("item",))], ...] = ()


class BallastPlace(Row):
    """`[[ballast_place]]`: where ballast may be fixed, and how much at most."""

    name: Text = ""
    at_mm: Point
    most_g: Weight
    most_tol_g: Gap | None = None


class Reading(Row):
    """`[[reading]]` of `measurements.toml`: what one scale showed in a weigh-in."""

    weighing: Annotated[str, Ref(("weighing",))]
    under: Annotated[str, Ref(("leg",))] | None = None
    at_mm: Point | None = None
    reading_g: Mass
    reading_tol_g: Gap | None = None
    resolution_g: Gap | None = None

    @model_validator(mode="after")
    def _one_place(self) -> Reading:
        if (self.under is None) == (self.at_mm is None):
            raise ValueError("say where the scale stood: under = a leg, or at_mm, not both")
        return self


class Weighing(Row):
    """`[[weighing]]` of `measurements.toml`: the aeroplane on scales, or on a two-point stand.

    On a stand under the wing: `stand_x_mm`, which way it `tips`, and the weight that levels it.
    `options` are those that were built in when it was weighed: with others it does not apply.
    """

    state: Annotated[str, Ref(("state",))]
    method: Literal["scales", "stand"] = "scales"
    date: Text = ""
    by: Text = ""
    pitch_deg: Annotated[Number, Field(ge=-45, le=45)] = 0.0
    pitch_tol_deg: Deviation | None = None
    station_tol_mm: Gap | None = None
    stand_x_mm: Coordinate | None = None
    tips: Literal["nose", "tail", "level"] | None = None
    weight_g: Mass | None = None
    weight_x_mm: Coordinate | None = None
    options: tuple[Annotated[str, Ref(("option",))], ...] = ()
    note: Text = ""

    @model_validator(mode="after")
    def _stand_is_placed(self) -> Weighing:
        if self.method == "stand" and (self.stand_x_mm is None or self.tips is None):
            raise ValueError('on a stand, give stand_x_mm and tips ("nose", "tail" or "level")')
        return self


class Measurement(Row):
    """`[[measurement]]` of `measurements.toml`: one measured value laid over the description.

    It overrides while the declared value and part are what they were when it was taken; after a
    change it is kept and shown as stale.
    """

    address: Text
    value: Value
    tol: Gap | None = None
    instrument: Text = ""
    date: Text = ""
    declared: Value | None = None
    part: Text = ""
