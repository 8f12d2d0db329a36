"""The whole description as one frozen value: every table of the folder's files, read and checked.

A later stage joins by a module of its own with its row models, and one line here for each table.
"""

from __future__ import annotations

from typing import Literal, get_args

from pydantic import BaseModel, ConfigDict

from hardstand.description.aeroplane import (
    Accept,
    AeroplaneTable,
    Bay,
    CgMark,
    Ground,
    LimitRow,
    MassRow,
    Panel,
    Section,
    Stability,
)
from hardstand.description.aliases import Alias
from hardstand.description.fields import Table
from hardstand.description.fuel import Fuel, Leg, Option, State, Tank
from hardstand.description.items import (
    Antenna,
    BallastPlace,
    Item,
    Lead,
    Measurement,
    OnHand,
    Reading,
    Weighing,
)
from hardstand.description.network import Channel, Duty, Joint, Load, Phase
from hardstand.description.parts import Part, Port
from hardstand.description.places import Hatch, Hole, KeepOut, Tray


class Description(BaseModel):
    """What the builder intends, whole: `aeroplane.toml`, `parts/*.toml`, `measurements.toml`.

    Arrays of tables are tuples of rows in the order of the file; single tables are None when absent.
    """

    # Its rows are read one by one, each by its own model: the whole is seldom asked to validate.
    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)

    format: Literal[1]
    aeroplane: AeroplaneTable
    cg_mark: CgMark | None = None
    stability: Stability | None = None
    ground: Ground | None = None
    fuel: Fuel | None = None
    panel: tuple[Panel, ...] = ()
    mass: tuple[MassRow, ...] = ()
    bay: tuple[Bay, ...] = ()
    section: tuple[Section, ...] = ()
    tray: tuple[Tray, ...] = ()
    hole: tuple[Hole, ...] = ()
    keep_out: tuple[KeepOut, ...] = ()
    hatch: tuple[Hatch, ...] = ()
    item: tuple[Item, ...] = ()
    antenna: tuple[Antenna, ...] = ()
    lead: tuple[Lead, ...] = ()
    joint: tuple[Joint, ...] = ()
    load: tuple[Load, ...] = ()
    channel: tuple[Channel, ...] = ()
    phase: tuple[Phase, ...] = ()
    duty: tuple[Duty, ...] = ()
    on_hand: tuple[OnHand, ...] = ()
    ballast_place: tuple[BallastPlace, ...] = ()
    tank: tuple[Tank, ...] = ()
    leg: tuple[Leg, ...] = ()
    state: tuple[State, ...] = ()
    limit: tuple[LimitRow, ...] = ()
    accept: tuple[Accept, ...] = ()
    option: tuple[Option, ...] = ()
    alias: tuple[Alias, ...] = ()
    part: tuple[Part, ...] = ()
    port: tuple[Port, ...] = ()
    measurement: tuple[Measurement, ...] = ()
    weighing: tuple[Weighing, ...] = ()
    reading: tuple[Reading, ...] = ()


PARTS_TABLES = ("part", "port")
MEASUREMENT_TABLES = ("measurement", "weighing", "reading")


def _row_model(annotation: object) -> type[Table] | None:
    """The row model inside `tuple[Row, ...]`, else None."""
    inner = get_args(annotation)
    is_rows = len(inner) == 2 and inner[1] is Ellipsis and isinstance(inner[0], type)
    return inner[0] if is_rows and issubclass(inner[0], Table) else None


ROWS: dict[str, type[Table]] = {
    name: model
    for name, field in Description.model_fields.items()
    if (model := _row_model(field.annotation)) is not None
}
SINGLES: dict[str, type[Table]] = {
    "aeroplane": AeroplaneTable,
    "cg_mark": CgMark,
    "stability": Stability,
    "ground": Ground,
    "fuel": Fuel,
}
