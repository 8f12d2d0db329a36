"""What is usual of a port where it does not say: which way power and signal go, form, pins.

Looked up by the kind of its part, its own kind and its name. Common practice, no source: a port that
is unlike the usual says so itself.
"""

from __future__ import annotations

from dataclasses import dataclass

from hardstand.description.electrics import Form, Way
from hardstand.description.parts import Part, PartKind, Port

ELECTRIC = ("power", "signal", "both", "motor")
THREE_PIN = ("signal", "plus", "minus")
_UNITS = "gear-controller light-controller turbine-controller brake-controller"
# Kinds of part, kinds of port, first word of the port's name (nothing: any), and what is usual of it:
# power, signal, form. The first row that fits counts.
_USUAL: tuple[tuple[str, str, str, Way, Way, Form | None], ...] = (
    ("", "fuel air", "", "none", "none", None),
    ("pack", "power", "", "gives", "none", None),
    ("", "", "aerial balance terminal probe", "none", "both", "data"),
    ("antenna", "", "", "none", "both", "data"),
    (_UNITS, "motor", "", "gives", "none", None),
    ("", "motor", "", "takes", "none", None),
    ("", "power", "out", "gives", "none", None),
    ("other", "power", "left right rail charger", "both", "none", None),
    (_UNITS, "power", "pack in lead", "takes", "none", None),
    (_UNITS, "power", "", "gives", "none", None),
    ("", "power", "", "takes", "none", None),
    ("", "", "switch", "none", "both", "switch"),
    ("switch display", "", "", "none", "both", "switch"),
    ("turbine-controller", "", "sensor", "none", "gives", "sensor"),
    ("light-controller", "", "sensor speed", "none", "takes", "sensor"),
    ("telemetry", "", "sender", "gives", "both", "sensor"),
    ("telemetry", "", "", "takes", "both", "sensor"),
    ("receiver gyro", "", "sensor", "both", "both", "sensor"),
    ("", "", "sensor", "gives", "both", "sensor"),
    ("receiver", "", "bus", "both", "gives", "bus"),
    ("receiver", "", "", "both", "gives", "pulse"),
    ("distribution", "", "bus", "gives", "takes", "bus"),
    ("distribution", "", "", "gives", "gives", "pulse"),
    ("gyro", "", "bus", "both", "both", "bus"),
    ("gyro", "", "", "both", "gives", "pulse"),
    (_UNITS, "", "in aux", "none", "takes", "pulse"),
    (_UNITS, "", "turbine valve", "gives", "gives", None),
    (_UNITS, "", "lead", "takes", "takes", "pulse"),
    (_UNITS, "", "", "gives", "gives", "pulse"),
    ("servo retract valve", "", "", "takes", "takes", "pulse"),
    ("turbine pump", "", "", "takes", "takes", None),
    ("", "", "in aux lead", "takes", "takes", "pulse"),
    ("", "", "", "both", "both", None),
)


@dataclass(frozen=True, slots=True)
class Roles:
    """What a port does, whole: stated or usual."""

    power: Way
    signal: Way
    form: Form | None
    pins: tuple[str, ...]
    needed: bool


def roles(part: Part, port: Port) -> Roles:
    """The roles of a port of a part: its own words where it has any, else what is usual.

    >>> from hardstand.description.catalogue import resolve
    >>> hub = resolve("distribution-14-output-1-rail")
    >>> [(one.id, roles(hub.part, one).power, roles(hub.part, one).signal) for one in hub.ports][:3]
    [('out-front', 'gives', 'gives'), ('out-back', 'gives', 'gives'), ('bus', 'gives', 'takes')]
    """
    word = port.id.split("-")[0]
    power, signal, form = _usual(part.kind, port.kind, word)
    return Roles(
        port.power or power,
        port.signal or signal,
        port.form or form,
        port.pins or usual_pins("data" if form == "data" else port.kind, port.poles),
        port.needed if port.needed is not None else _needed(part.kind, word, port),
    )


def usual_pins(kind: str, poles: int | None) -> tuple[str, ...]:
    """The pins of a plug in order: signal, plus, minus; plus, minus; a, b of a motor; else numbers.

    >>> usual_pins("both", 3), usual_pins("power", 2), usual_pins("motor", 2), usual_pins("both", None)
    (('signal', 'plus', 'minus'), ('plus', 'minus'), ('a', 'b'), ('1', '2'))
    """
    if kind == "motor":
        return ("a", "b", "c")[: 3 if poles == 3 else 2]
    if poles == 3 and kind != "data":
        return THREE_PIN
    if kind == "power" and poles in (None, 2):
        return ("plus", "minus")
    return tuple(str(number + 1) for number in range(poles or 2))


def _usual(kind: str, port_kind: str, word: str) -> tuple[Way, Way, Form | None]:
    asked = (kind, port_kind, word)
    return next(
        (power, signal, form)
        for *columns, power, signal, form in _USUAL
        if all(not one or own in one.split() for one, own in zip(columns, asked, strict=True))
    )


def _needed(kind: PartKind, word: str, port: Port) -> bool:
    if port.kind == "power" and word == "pack":
        return True
    return kind in ("distribution", "gyro") and word == "bus"
