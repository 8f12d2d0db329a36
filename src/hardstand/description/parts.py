"""Parts: what a piece of equipment is, whoever makes it. The catalogue and `parts/*.toml` hold them.

A part's box is length, width, height in its own axes: length along x when `turn_deg` is 0, front
towards the nose. A port names the face its plugs enter, so that the room for plug and bend is known.
Every face (a port's, `view_face`, `slides_out`) is one of the part's own and turns with the item.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, Strict, model_validator

from hardstand.description.electrics import Gender, PartElectrics, PortElectrics
from hardstand.description.fields import (
    Coordinate,
    Count,
    Flag,
    Gap,
    Id,
    Length,
    Mass,
    NotNegative,
    Point,
    Positive,
    Ref,
    Temperature,
    Text,
    Volume,
)

PartKind = Literal[
    "receiver",
    "distribution",
    "gyro",
    "display",
    "switch",
    "pack",
    "servo",
    "retract",
    "gear-controller",
    "brake",
    "brake-controller",
    "light-controller",
    "lamp",
    "turbine",
    "turbine-controller",
    "pump",
    "valve",
    "tank",
    "header-tank",
    "telemetry",
    "regulator",
    "antenna",
    "air-tank",
    "duct",
    "other",
]
Face = Literal["front", "back", "left", "right", "top", "bottom"]
FACES: tuple[Face, ...] = ("front", "back", "left", "right", "top", "bottom")


class Port(PortElectrics):
    """`[[port]]`: one connector of a part, or `count` alike ones named `id-1`, `id-2` and so on.

    `plug_mm` is how far the mated plug stands out of the face, `bend_mm` the room its lead needs to
    turn. `row_mm` (width, height) is the stretch of the face that the plugs of this row take, from
    the base up by `row_base_mm`; without it the whole width and up to 10 mm of height.
    """

    part: Annotated[str, Ref(("part",))]
    id: Id
    count: Annotated[int, Strict(), Field(ge=1, le=64)] = 1
    face: Face
    kind: Literal["power", "signal", "both", "motor", "fuel", "air"] = "both"
    connector: Text = ""
    poles: Annotated[int, Strict(), Field(ge=1, le=40)] | None = None
    gender: Gender = "none"
    plug_mm: Gap = 25.0
    bend_mm: Gap = 15.0
    row_mm: tuple[Length, Length] | None = None
    row_base_mm: Gap = 0.0
    current_a: NotNegative | None = None
    low_v: NotNegative | None = None
    high_v: NotNegative | None = None
    flying_lead_mm: Gap | None = None

    def names(self) -> tuple[str, ...]:
        """The names of the ports of this row.

        >>> Port(part="rx", id="out", count=2, face="front").names()
        ('out-1', 'out-2')
        """
        return (
            (self.id,)
            if self.count == 1
            else tuple(f"{self.id}-{i + 1}" for i in range(self.count))
        )


class Part(PartElectrics):
    """`[[part]]`: one class of equipment, or with `extends` a variation of another part.

    A hollow part (`shape = "ring"`) has its axis along its length; width is the outside and
    `inside_mm` the inside diameter. Cylinders have their axis along the length too.
    `view_face` is the face to be seen (the top where none is named), `slides_out` the one that leads
    when it is taken out; both are the part's own and turn with the item.
    """

    name: Text = ""
    kind: PartKind = "other"
    extends: Annotated[str, Ref(("part",))] | None = None
    shape: Literal["box", "cylinder", "ring"] = "box"
    size_mm: tuple[Length, Length, Length] | None = None
    size_tol_mm: Gap | None = None
    inside_mm: Length | None = None
    mass_g: Mass | None = None
    mass_tol_g: Gap | None = None
    cg_offset_mm: Point = (0.0, 0.0, 0.0)
    tiltable: Flag = False
    needs_reach: Flag = False
    needs_view: Flag = False
    view_face: Face | None = None
    has_accelerometer: Flag = False
    material: Literal["plastic", "metal", "carbon", "wood", "mixed"] = "plastic"
    hot_degc: Temperature | None = None
    hot_from_mm: Coordinate | None = None
    slides_out: Face | None = None
    # electrical figures of the class; the power engine reads them
    low_v: NotNegative | None = None
    high_v: NotNegative | None = None
    reset_v: NotNegative | None = None
    idle_a: NotNegative | None = None
    moving_a: NotNegative | None = None
    stall_a: NotNegative | None = None
    peak_a: NotNegative | None = None
    resistance_mohm: NotNegative | None = None
    drop_v: NotNegative | None = None
    cells: Count | None = None
    chemistry: Literal["li-ion", "li-po", "li-fe", "ni-mh"] | None = None
    capacity_mah: Positive | None = None
    outputs: Count | None = None
    rails: Count | None = None
    rated_a: Positive | None = None
    torque_nm: Positive | None = None
    time_s: Positive | None = None
    thrust_n: Positive | None = None
    capacity_ml: Volume | None = None
    flow_ml_min: Positive | None = None
    note: Text = ""

    @model_validator(mode="after")
    def _whole(self) -> Part:
        if self.extends is None and (self.size_mm is None or self.mass_g is None):
            raise ValueError("a part that extends no other needs size_mm and mass_g")
        if self.shape == "ring" and self.extends is None and self.inside_mm is None:
            raise ValueError("a ring also needs inside_mm, the inside diameter")
        if self.inside_mm is not None and self.size_mm and self.inside_mm >= self.size_mm[1]:
            raise ValueError(
                f"inside_mm {self.inside_mm:g} is not less than the outside "
                f"diameter {self.size_mm[1]:g}"
            )
        if self.low_v is not None and self.high_v is not None and self.low_v > self.high_v:
            raise ValueError(f"low_v {self.low_v:g} is above high_v {self.high_v:g}")
        return self
