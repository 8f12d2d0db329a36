"""What hangs on the leads: joints, loads, and the channels that command it all."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, Strict, model_validator

from hardstand.description.electrics import LoadForm, Pins, Poles
from hardstand.description.fields import (
    Flag,
    Gap,
    Id,
    NotNegative,
    Percent,
    Point,
    Positive,
    Ref,
    Row,
    Text,
)
from hardstand.description.items import End

Function = Literal[
    "pitch",
    "roll",
    "yaw",
    "throttle",
    "flaps",
    "speed-brake",
    "gear",
    "doors",
    "brakes",
    "steering",
    "lights",
    "gyro-gain",
    "gyro-mode",
    "engine-aux",
    "other",
]
Side = Literal["left", "right", "whole"]
PhaseKind = Literal[
    "start", "taxi", "take-off", "flying", "gear-cycle", "approach", "landing", "reserve", "cool-down"
]


class Joint(Row):
    """`[[joint]]`: a plug pair between leads, such as a wing's, and the circuits that go through it.

    A lead ends at a circuit as at a port: `wing-plug-left.aileron`. Every one of its `ways` has the
    pins of `way_pins`. Without ways it is one circuit, and leads end at the joint's id alone.
    """

    name: Text = ""
    connector: Text = ""
    poles: Poles | None = None
    at_mm: Point | None = None
    at_tol_mm: Gap | None = None
    ways: Annotated[tuple[Id, ...], Field(max_length=40)] = ()
    way_pins: Pins = ("signal", "plus", "minus")
    current_a: NotNegative | None = None
    contact_mohm: NotNegative | None = None
    locked: Flag | None = None
    note: Text = ""

    @model_validator(mode="after")
    def _pins_fit(self) -> Joint:
        needed = len(self.way_pins) * max(1, len(self.ways))
        if self.poles is not None and needed > self.poles:
            raise ValueError(
                f"{max(1, len(self.ways))} x {len(self.way_pins)} pins are more than {self.poles} poles"
            )
        if len(set(self.ways)) != len(self.ways):
            raise ValueError("two of its ways have one name")
        return self


class Load(Row):
    """`[[load]]`: what one item, or one end that is no item, draws, where the part does not say it.

    `at` is an item's port, or the name of an end such as a lamp's.
    """

    at: End
    idle_a: NotNegative | None = None
    moving_a: NotNegative | None = None
    stall_a: NotNegative | None = None
    peak_a: NotNegative | None = None
    form: LoadForm | None = None
    note: Text = ""


class Channel(Row):
    """`[[channel]]`: one channel of the transmitter: what it commands, where it comes out, what moves.

    `function` holds one or several (a taileron is pitch and roll). `at` are the outputs at which it
    appears as a pulse, none where it stays on the bus; `drives` the items that obey it.
    """

    number: Annotated[int, Strict(), Field(ge=1, le=64)] | None = None
    name: Text = ""
    function: Annotated[tuple[Function, ...], Field(min_length=1, max_length=6)]
    side: Side = "whole"
    at: tuple[End, ...] = ()
    drives: tuple[Annotated[str, Ref(("item",))], ...] = ()
    note: Text = ""


class Phase(Row):
    """`[[phase]]`: one stretch of a flight, for currents and charge; in the order of the rows.

    `lights_pct` is the share of the lamps' current that flows, `times` how often it comes a flight.
    """

    name: Text = ""
    kind: PhaseKind
    duration_s: Positive
    times: Annotated[int, Strict(), Field(ge=1, le=100)] = 1
    turbine: Literal["off", "start", "run", "cool"] = "run"
    lights_pct: Percent = 100.0


class Duty(Row):
    """`[[duty]]`: how hard a function works in a phase, in shares of the time.

    `moving_pct` of the time its items draw their current in motion, `stall_pct` that at stall; the
    rest of the time they rest.
    """

    phase: Annotated[str, Ref(("phase",))]
    function: Function
    moving_pct: Percent = 0.0
    stall_pct: Percent = 0.0

    @model_validator(mode="after")
    def _no_more_than_all(self) -> Duty:
        if self.moving_pct + self.stall_pct > 100.0:
            raise ValueError("moving_pct and stall_pct together are more than all of the time")
        return self
