"""The inside of a tank as a solid, and the dipsticks of all tanks in all attitudes that occur."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import cbrt, pi

from hardstand.asbuilt.value import PlacedTank
from hardstand.engines.fuel.level import Gauge, gauge, up_direction
from hardstand.engines.fuel.solids import Solid, box, cylinder

MM3_PER_ML = 1000.0


def tank_inside(tank: PlacedTank) -> Solid:
    """The liquid side of a tank about its own middle, holding exactly the tank's capacity.

    A stated inside that holds more than the capacity is shrunk about its middle to hold it, so that
    full is full; its proportions stay. The tank lies level or turned in quarter turns; a tilt of
    its item is left out.
    """
    length, width, height = tank.inside_mm
    across = tank.turn_deg % 180.0 != 0.0
    round_share = pi / 4.0 if tank.cylinder else 1.0
    third = width if tank.cylinder else height
    held_ml = length * width * third * round_share / MM3_PER_ML
    factor = cbrt(tank.capacity.value / held_ml)
    length, width, height = factor * length, factor * width, factor * height
    if tank.cylinder:
        return cylinder(width, length, axis=1 if across else 0)
    return box([width, length, height] if across else [length, width, height])


def gauges(tanks: Sequence[PlacedTank], pitches_deg: Iterable[float]) -> list[dict[float, Gauge]]:
    """For every tank its dipstick by attitude (pitch in degrees, nose up positive).

    Tanks of one shape share theirs: a dipstick is about the tank's own middle.
    """
    attitudes = sorted(set(pitches_deg))
    known: dict[tuple[object, ...], dict[float, Gauge]] = {}
    found = []
    for tank in tanks:
        shape = (tank.cylinder, tank.inside_mm, tank.turn_deg % 180.0, tank.capacity.value)
        if shape not in known:
            inside = tank_inside(tank)
            known[shape] = {pitch: gauge(inside, up_direction(pitch)) for pitch in attitudes}
        found.append(known[shape])
    return found
