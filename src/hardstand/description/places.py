"""Where equipment can sit and what it must stay clear of: trays, holes, keep-outs, hatches."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from hardstand.description.aeroplane import OrderedRange, SimpleOutline
from hardstand.description.fields import (
    Coordinate,
    Flag,
    Gap,
    Length,
    Number,
    PlanPoint,
    Point,
    Ref,
    Row,
    Text,
)


class Tray(Row):
    """`[[tray]]`: a flat tray, its outline in plan, the height of its top and what is free above."""

    name: Text = ""
    outline_mm: SimpleOutline
    top_z_mm: Coordinate
    thickness_mm: Length = 2.0
    height_mm: Length | None = None
    tol_mm: Gap | None = None
    bay: Annotated[str, Ref(("bay",))] | None = None


class Hole(Row):
    """`[[hole]]`: an opening in a tray: round (`at_mm`, `diameter_mm`), a slot, or any outline.

    A slot is a round-ended cut from `from_mm` to `to_mm`, `width_mm` wide. `keep_open` holds
    equipment off it.
    """

    tray: Annotated[str, Ref(("tray",))]
    purpose: Literal["leads", "ties", "lightening", "screw", "moving part"] = "leads"
    at_mm: PlanPoint | None = None
    diameter_mm: Length | None = None
    from_mm: PlanPoint | None = None
    to_mm: PlanPoint | None = None
    width_mm: Length | None = None
    outline_mm: SimpleOutline | None = None
    keep_open: Flag = True

    @model_validator(mode="after")
    def _one_shape(self) -> Hole:
        round_hole = self.at_mm is not None and self.diameter_mm is not None
        slot = self.from_mm is not None and self.to_mm is not None and self.width_mm is not None
        if round_hole + slot + (self.outline_mm is not None) != 1:
            raise ValueError(
                "give at_mm with diameter_mm (round), or from_mm, to_mm with width_mm "
                "(slot), or outline_mm, and only one of them"
            )
        return self


class KeepOut(Row):
    """`[[keep_out]]`: a solid that equipment must stay clear of.

    Shapes: `box` (`at_mm` its middle, `size_mm`, `turn_deg`), `cylinder` (`from_mm`, `to_mm`,
    `diameter_mm`), `prism` (`outline_mm` in plan, `bottom_mm` to `top_mm`), `underside` (something
    overhead such as a cockpit tub: its lower surface as x, z pairs in `profile_mm` over the band
    `y_mm`, straight between them) and `half-space above`/`below` are written as prisms.
    """

    name: Text = ""
    kind: Literal["structure", "tub", "moving", "hot", "fuel", "carbon", "metal"] = "structure"
    shape: Literal["box", "cylinder", "prism", "underside"]
    at_mm: Point | None = None
    size_mm: tuple[Length, Length, Length] | None = None
    turn_deg: Annotated[Number, Field(ge=-360, le=360)] = 0.0
    from_mm: Point | None = None
    to_mm: Point | None = None
    diameter_mm: Length | None = None
    outline_mm: SimpleOutline | None = None
    bottom_mm: Coordinate | None = None
    top_mm: Coordinate | None = None
    profile_mm: Annotated[tuple[PlanPoint, ...], Field(min_length=2, max_length=200)] | None = None
    y_mm: OrderedRange | None = None
    removable: Flag = False
    group: Text = ""
    tol_mm: Gap | None = None

    @model_validator(mode="after")
    def _fields_of_its_shape(self) -> KeepOut:
        needed = {
            "box": ("at_mm", "size_mm"),
            "cylinder": ("from_mm", "to_mm", "diameter_mm"),
            "prism": ("outline_mm", "bottom_mm", "top_mm"),
            "underside": ("profile_mm", "y_mm"),
        }
        missing = [name for name in needed[self.shape] if getattr(self, name) is None]
        if missing:
            raise ValueError(
                f"a keep-out of shape {self.shape!r} also needs {' and '.join(missing)}"
            )
        if self.shape == "prism" and self.bottom_mm >= self.top_mm:  # type: ignore[operator]
            raise ValueError(f"bottom_mm {self.bottom_mm:g} is not below top_mm {self.top_mm:g}")
        if self.shape == "cylinder" and self.from_mm == self.to_mm:
            raise ValueError("from_mm and to_mm are the same point, so the cylinder has no length")
        if self.profile_mm and any(
            a[0] >= b[0] for a, b in zip(self.profile_mm, self.profile_mm[1:], strict=False)
        ):
            raise ValueError(
                "the stations (first numbers) of profile_mm must rise from front to back"
            )
        return self


class Hatch(Row):
    """`[[hatch]]`: an opening through which hands, packs and plugs reach, by its outline in plan.

    `opens` is the side of the fuselage it is in; things leave through it in that direction.
    """

    name: Text = ""
    outline_mm: SimpleOutline
    opens: Literal["up", "down", "left", "right"] = "up"
    bottom_mm: Coordinate | None = None
    top_mm: Coordinate | None = None
