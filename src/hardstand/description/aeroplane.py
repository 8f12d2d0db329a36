"""The aeroplane as a whole: its name, its CG mark and range, the stability inputs, the ground."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, Strict, StringConstraints, model_validator

from hardstand.description.fields import (
    PATTERNS,
    Coordinate,
    Flag,
    Gap,
    Length,
    Number,
    Outline,
    Percent,
    Point,
    Ref,
    Row,
    Speed,
    Table,
    Text,
    Weight,
    ordered,
)
from hardstand.description.outlines import simple_outline

OrderedRange = Annotated[tuple[Coordinate, Coordinate], AfterValidator(ordered)]
SimpleOutline = Annotated[Outline, AfterValidator(simple_outline)]
Share = Annotated[float, Strict(), Field(allow_inf_nan=False, gt=0, le=2)]


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
    """`[stability]`: what the neutral point needs beside the planform, all with defaults.

    `tailless` says that there is neither tail nor canard: without it one that is missing is asked for.
    """

    tailless: Flag = False
    tail_efficiency: Share | None = None
    tail_efficiency_tol: Share | None = None
    body_tol_pct: Percent | None = None
    speed_m_s: Speed | None = None


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
    mass_g: Weight
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
    outline_mm: SimpleOutline | None = None
    tol_mm: Gap | None = None

    @model_validator(mode="after")
    def _one_way(self) -> Section:
        measures = (self.half_width_mm, self.top_mm, self.bottom_mm)
        given = sum(one is not None for one in measures)
        if (given == 0) == (self.outline_mm is None) or given in (1, 2):
            raise ValueError("give half_width_mm, top_mm and bottom_mm, or outline_mm alone")
        if self.bottom_mm is not None and self.top_mm is not None and self.bottom_mm >= self.top_mm:
            raise ValueError(f"bottom_mm {self.bottom_mm:g} is not below top_mm {self.top_mm:g}")
        return self


STAGE_SLUG = r"^[a-z]+\.[a-z0-9-]+$"
PATTERNS[STAGE_SLUG] = "a stage and a name, such as fit.box-gap"
StageSlug = Annotated[str, StringConstraints(max_length=60, pattern=STAGE_SLUG)]


class LimitRow(Table):
    """`[[limit]]`: the builder's own value for a limit of the program, with the reason."""

    id: StageSlug
    low: Number | None = None
    high: Number | None = None
    reason: Text

    @model_validator(mode="after")
    def _sets_something(self) -> LimitRow:
        if self.low is None and self.high is None:
            raise ValueError("a limit needs low, high or both")
        if self.low is not None and self.high is not None and self.low > self.high:
            raise ValueError(f"low {self.low:g} is above high {self.high:g}")
        return self


class Accept(Row):
    """`[[accept]]`: a finding that the builder takes on, by name and with a reason."""

    code: StageSlug
    about: Annotated[tuple[Text, ...], Field(min_length=1, max_length=100)]
    by: Text
    reason: Text
    until: Text = ""
