"""The aeroplane as a whole: its name, its CG mark and range, the stability inputs, the ground."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AfterValidator, StringConstraints, model_validator

from hardstand.description.fields import (
    Coordinate,
    Flag,
    Gap,
    Length,
    Number,
    PlanPoint,
    Point,
    Positive,
    Range,
    Ref,
    Row,
    Table,
    Text,
    ordered,
)

OrderedRange = Annotated[Range, AfterValidator(ordered)]


class AeroplaneTable(Table):
    """`[aeroplane]`: name and the designer's CG range with the state it belongs to."""

    name: Text
    span_mm: Length | None = None
    length_mm: Length | None = None
    cg_range_mm: OrderedRange | None = None
    cg_range_state: Annotated[str, Ref(("state",))] | None = None
    cg_target_mm: OrderedRange | None = None
    cg_target_state: Annotated[str, Ref(("state",))] | None = None
    note: Text = ""


class CgMark(Table):
    """`[cg_mark]`: the point one can touch from which the CG is measured aft."""

    name: Text
    at_mm: Point
    at_tol_mm: Gap | None = None


class Stability(Table):
    """`[stability]`: what the neutral point needs beside the planform, all with defaults."""

    tail_efficiency: Annotated[float, Positive] | None = None
    tail_efficiency_tol: Annotated[float, Positive] | None = None
    body_tol_pct: Gap | None = None
    speed_m_s: Positive | None = None


class Ground(Table):
    """`[ground]`: what touches first when the tail goes down."""

    tail_strike_mm: Point
    tail_strike_tol_mm: Gap | None = None


class Panel(Row):
    """`[[panel]]`: one straight-edged piece of wing, tail or fin; a cranked wing has several.

    `root_mm` and `tip_mm` are the leading-edge points. A mirrored panel stands for both sides.
    """

    surface: Literal["wing", "tail", "fin", "canard"]
    root_mm: Point
    tip_mm: Point
    root_chord_mm: Length
    tip_chord_mm: Length
    mirrored: Flag = True
    chord_tol_mm: Gap | None = None
    note: Text = ""

    @model_validator(mode="after")
    def _runs_outward(self) -> Panel:
        root, tip = self.root_mm[1], self.tip_mm[1]
        if self.surface == "fin":
            return self
        if root * tip < 0.0 or abs(tip) <= abs(root):
            raise ValueError(
                f"a panel runs outward: its tip's y ({tip:g}) must lie farther from the "
                f"centreline than its root's ({root:g})"
            )
        if self.mirrored and tip <= 0.0:
            raise ValueError("a mirrored panel is given by its starboard half (y above 0)")
        return self


class MassRow(Row):
    """`[[mass]]`: a piece of airframe or sundry, weighed by itself, with its own mass centre."""

    name: Text = ""
    mass_g: Positive
    mass_tol_g: Gap | None = None
    at_mm: Point
    at_tol_mm: Gap | None = None
    size_mm: tuple[Gap, Gap, Gap] | None = None
    ixx_kgm2: Gap | None = None
    iyy_kgm2: Gap | None = None
    izz_kgm2: Gap | None = None
    removable: Flag = False
    zone: Text = ""


class Bay(Row):
    """`[[bay]]`: a stretch of fuselage whose inside is known at two or more sections."""

    name: Text = ""


class Section(Row):
    """`[[section]]`: the inside of a bay at one station, in y and z.

    Either `outline_mm`, or half width with top and bottom and a corner radius.
    """

    bay: Annotated[str, Ref(("bay",))]
    x_mm: Coordinate
    half_width_mm: Length | None = None
    top_mm: Coordinate | None = None
    bottom_mm: Coordinate | None = None
    corner_mm: Gap = 0.0
    outline_mm: tuple[PlanPoint, ...] | None = None
    tol_mm: Gap | None = None


LimitId = Annotated[str, StringConstraints(pattern=r"^[a-z]+\.[a-z0-9-]+$", max_length=60)]


class LimitRow(Table):
    """`[[limit]]`: the builder's own value for a limit of the program, with the reason."""

    id: LimitId
    low: Number | None = None
    high: Number | None = None
    reason: Text


class Accept(Row):
    """`[[accept]]`: a finding that the builder takes on, by name and with a reason."""

    code: Text
    about: tuple[Text, ...]
    by: Text
    reason: Text
    until: Text = ""
