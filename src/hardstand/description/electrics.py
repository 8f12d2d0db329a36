"""What ports, parts and leads say of power and signal, over and above where they are.

All of it may be left out. A port then has what is usual of its kind of part (`port_roles`), and a
lead has plugs made to fit both of its ports, one conductor for each pin that both have.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, Strict, model_validator

from hardstand.description.fields import (
    Count,
    Flag,
    Gap,
    Id,
    NotNegative,
    Positive,
    Ref,
    Row,
    Table,
    Text,
)

Way = Literal["gives", "takes", "both", "none"]
Form = Literal["pulse", "bus", "sensor", "switch", "data"]
Gender = Literal["pin", "socket", "none"]
LoadForm = Literal["current", "power", "resistance"]
PINS_MOST = 40
EMPTY = "empty"  # a place in a plug that holds no conductor
Pins = Annotated[tuple[Id, ...], Field(min_length=1, max_length=PINS_MOST)]
Poles = Annotated[int, Strict(), Field(ge=1, le=PINS_MOST)]


class PortElectrics(Table):
    """What a port does: which way power and signal go, in what form, on which rail of its part.

    `power` and `signal` are seen from the part: it gives, takes, both (joined to its rail either
    way), or none. `pins` names the pins in order; plus, minus and signal are known words, and so are
    they with a name before (`flap-plus`). `needed` says that the port may not stay empty. Currents
    are those of what hangs on this port inside the part, where that is not the part's own figure.
    """

    power: Way | None = None
    signal: Way | None = None
    form: Form | None = None
    rail: Id | None = None
    pins: Pins | None = None
    needed: Flag | None = None
    contact_mohm: NotNegative | None = None
    fuse_a: Positive | None = None
    idle_a: NotNegative | None = None
    moving_a: NotNegative | None = None
    stall_a: NotNegative | None = None
    peak_a: NotNegative | None = None


class PartElectrics(Row):
    """How a part joins what is plugged into it, and how its load follows the voltage.

    `coupling` of several inputs: ideal diodes, a plain joint, own-rail (the first input feeds the
    first rail only, and so on), or a tie: a switch between rails that opens above `rated_a` within
    `opens_s`. `set_v` is what a regulator holds. `breaks` is the pole that a switch opens,
    `when_broken` what it does when its lead or button fails.
    """

    coupling: Literal["ideal-diodes", "joint", "own-rail", "tie"] | None = None
    set_v: Positive | None = None
    opens_s: NotNegative | None = None
    breaks: Literal["plus", "minus", "both"] | None = None
    when_broken: Literal["on", "off"] | None = None
    load: LoadForm | None = None


class LeadElectrics(Row):
    """What a lead is made of, and its plugs where they are not simply those that fit.

    Either `awg` or `area_mm2`. `connector` is the class of both plugs, `from_…` and `to_…` those of
    one end: class, gender, poles, and which conductor is in which place (`pins`, `empty` for none).
    `branch_of` names the lead whose plug at `from` this one shares, `branch_after_mm` how far from
    there they part; `cable` the lead in whose sheath it runs. `direct` says that there is no lead at
    all: the two ports, one with a lead of its own, are plugged into one another.
    """

    area_mm2: Positive | None = None
    strands: Annotated[int, Strict(), Field(ge=1, le=5000)] | None = None
    conductors: Count | None = None
    connector: Text = ""
    from_connector: Text = ""
    to_connector: Text = ""
    from_gender: Gender | None = None
    to_gender: Gender | None = None
    from_poles: Poles | None = None
    to_poles: Poles | None = None
    from_pins: Pins | None = None
    to_pins: Pins | None = None
    branch_of: Annotated[str, Ref(("lead",))] | None = None
    branch_after_mm: Gap = 0.0
    cable: Annotated[str, Ref(("lead",))] | None = None
    direct: Flag = False
    twisted: Flag = False
    shield: Literal["none", "one end", "both ends"] = "none"
    locked: Flag | None = None
    fuse_a: Positive | None = None
    label: Text = ""

    @model_validator(mode="after")
    def _made_of_one_wire(self) -> LeadElectrics:
        if self.area_mm2 is not None and getattr(self, "awg", None) is not None:
            raise ValueError("awg and area_mm2 both say how thick the wire is: give one of them")
        if self.direct and (getattr(self, "length_mm", None) or self.from_pins or self.to_pins):
            raise ValueError("direct says that there is no lead: it has no length_mm and no plugs")
        return self
