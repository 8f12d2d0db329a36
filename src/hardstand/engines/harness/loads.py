"""What hangs on a port inside its item: currents at rest, in motion, at stall, as inputs."""

from __future__ import annotations

from typing import Any

from hardstand.asbuilt.value import PlacedItem, PlacedPort
from hardstand.description.network import Load
from hardstand.description.port_roles import Roles
from hardstand.figures import Input

CURRENT_SHARE = 0.10  # half-width of 95 %: meters and makers agree no better; common practice
_FIELDS = {"idle": ("idle_a",), "moving": ("moving_a", "idle_a"),
           "stall": ("stall_a", "peak_a", "moving_a", "idle_a")}  # fmt: skip


def loads_at(
    item: PlacedItem | None,
    one: PlacedPort | None,
    role: Roles | None,
    known: list[tuple[PlacedPort, Roles]],
    given: Load | None,
) -> dict[str, Input]:
    """The currents of a port: its `[[load]]`, else its own, else its part's where it is the main one.

    The part's own currents count once: at the first port through which it takes power. "moving" is
    the lasting current, "stall" the highest for a short time.
    """
    if given is not None:
        return _inputs(given, f"load.{given.id}")
    if item is None or one is None or role is None:
        return {}
    own = _inputs(one.port, f"port.{one.port.part}.{one.port.id}")
    if own:
        return own
    eats = [other for other, roled in known if roled.power in ("takes", "both")]
    bare = [other for other in eats if not _inputs(other.port, "")]
    main = bare and bare[0] is one and item.kind != "pack"
    return _inputs(item.part, f"part.{item.part.id}") if main else {}


def _inputs(row: Any, address: str) -> dict[str, Input]:
    found: dict[str, Input] = {}
    for name, fields in _FIELDS.items():
        field = next((one for one in fields if getattr(row, one, None) is not None), None)
        if field is not None:
            value = float(getattr(row, field))
            u = CURRENT_SHARE * value / 2.0
            found[name] = Input(f"{address}.{field}", value, "a", u, "declared",
                                f"{address}.{field}", "class default, 10 % of a current")  # fmt: skip
    return found
