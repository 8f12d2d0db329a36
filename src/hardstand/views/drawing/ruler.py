"""The station ruler that stands between two views of one scale."""

from __future__ import annotations

import math

from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.lettering import width
from hardstand.views.drawing.shapes import Path, Placement, Shape, Text, line, rectangle

HEIGHT = 30.0  # design pixels
_STEPS = (1.0, 2.0, 5.0)


def round_step(least_mm: float) -> float:
    """The smallest of 1, 2, 5, 10, 20, 50 ... that is not under `least_mm`.

    >>> round_step(37.0), round_step(100.0)
    (50.0, 100.0)
    """
    power = 10.0 ** math.floor(math.log10(least_mm))
    return next(one * power for one in (*_STEPS, 10.0) if one * power >= least_mm * 0.999999)


def figure(value: float) -> str:
    """A whole figure of a scale, with the true minus.

    >>> figure(-100.0)
    '−100'
    """
    return f"{value:g}".replace("-", "−")


def ruler(
    low_mm: float,
    high_mm: float,
    top: float,
    on: Placement,
    medium: Medium,
    reversed_mm: float | None = None,
) -> tuple[Shape, ...]:
    """A ruler from one station to another with its upper edge at `top` on the sheet.

    `reversed_mm` is the station of what is selected: its figure stands reversed on the accent.
    """
    unit = medium.unit
    bottom = top + HEIGHT * unit
    left, right = sorted((on.point(low_mm, 0.0)[0], on.point(high_mm, 0.0)[0]))
    widest = max(width(figure(one), "tick", medium) for one in (low_mm, high_mm))
    major = round_step((widest + 12.0 * unit) / on.scale)
    minor = round_step(4.0 * unit / on.scale)
    ticks, figures = [], []
    hidden = (-math.inf, -math.inf)
    shapes: list[Shape] = [line("outline", (left, top), (right, top)),
                           line("outline", (left, bottom), (right, bottom))]  # fmt: skip
    flag: tuple[Shape, ...] = ()
    if reversed_mm is not None:
        at, text = on.point(reversed_mm, 0.0)[0], f"{reversed_mm:.0f}".replace("-", "−")
        half = width(text, "reversed", medium) / 2.0 + 6.0 * unit
        hidden = (at - half, at + half)
        box = rectangle("accent-solid", at - half, top + 6.0 * unit, at + half, bottom - 6.0 * unit)
        flag = (box, Text("reversed", (at, bottom - 10.5 * unit), text, "middle", halo=False))
    for number in range(math.ceil(low_mm / minor), math.floor(high_mm / minor) + 1):
        station = number * minor
        x = on.point(station, 0.0)[0]
        long = 8.0 if _whole(station, major) else 6.0 if _whole(station, major / 2.0) else 3.5
        ticks += [((x, top), (x, top + long * unit)), ((x, bottom), (x, bottom - long * unit))]
        half = width(figure(station), "tick", medium) / 2.0
        over = half - 12.0 * unit  # how far a figure at an end may reach beyond it
        if x + over > right or x - over < left:
            continue
        if _whole(station, major) and (x + half < hidden[0] or x - half > hidden[1]):
            figures.append(Text("tick", (x, bottom - 11.0 * unit), figure(station), "middle"))
    return (*shapes, Path("thin", tuple(ticks)), *figures, *flag)


def _whole(station: float, step: float) -> bool:
    return abs(station / step - round(station / step)) < 1e-6


def scale_bar(left: float, top: float, on: Placement, medium: Medium, room: float) -> tuple[Shape, ...]:
    """A scale bar with five fields whose length is a round number, no longer than `room`.

    The outer fields are filled in turn; the figures say how long the bar is in the model.
    """
    unit = medium.unit
    long_mm = round_step(room / 2.5 / on.scale)
    long_mm = long_mm if long_mm * on.scale <= room else long_mm / 2.0
    field = long_mm / 5.0 * on.scale
    shapes: list[Shape] = []
    for number in range(5):
        kind = "solid" if number % 2 == 0 else "neighbour"
        start = left + number * field
        shapes.append(rectangle(kind, start, top, start + field, top + 5.0 * unit))  # type: ignore[arg-type]
    for number in (0, 1, 2, 3, 5):  # the last figure has its unit behind it, and needs the room of two
        value = figure(long_mm * number / 5.0) + (" mm" if number == 5 else "")
        at = (left + number * field, top - 4.0 * unit)
        anchor = "middle"
        wide = width(value, "tick", medium) + 4.0 * unit
        if number in (0, 5) or wide < field:
            shapes.append(Text("tick", at, value, anchor))  # type: ignore[arg-type]
    return tuple(shapes)


