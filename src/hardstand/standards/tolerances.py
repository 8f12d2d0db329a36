"""Class defaults: the tolerance a figure has when the builder states none.

Each is the half-width of 95 %, in the unit of its name, as the file would state it. They stand for a
careful builder with a kitchen scale, a ruler and callipers: common practice, no source. A result that
used one names it; it does not make the value an assumed one.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ClassDefault:
    """A default tolerance: a fixed half-width plus a share of the value, and what it stands for.

    >>> ClassDefault("weighed piece", "g", 4.0, 0.01).tolerance(200.0)
    6.0
    """

    name: str
    unit: str
    fixed: float
    share: float = 0.0

    def tolerance(self, value: float) -> float:
        """Half-width of 95 % for a value, both in `unit`."""
        return self.fixed + self.share * abs(value)


WEIGHED_MASS = ClassDefault("weighed piece, 4 g + 1 %", "g", 4.0, 0.01)
CATALOGUE_MASS = ClassDefault("mass typical of the class, 4 g + 15 %", "g", 4.0, 0.15)
MOVING_MASS = ClassDefault("share of a leg that swings, 5 g + 5 %", "g", 5.0, 0.05)
MASS_STATION = ClassDefault("mass centre by ruler, 4 mm", "mm", 4.0)
CG_MARK = ClassDefault("point touched with a ruler, 1 mm", "mm", 1.0)
PLACE = ClassDefault("place on a tray, 0.6 mm", "mm", 0.6)
BOX = ClassDefault("callipers on a box, 0.3 mm", "mm", 0.3)
CATALOGUE_BOX = ClassDefault("box typical of the class, 2 mm", "mm", 2.0)
TRAY = ClassDefault("height of a tray, 0.2 mm", "mm", 0.2)
EDGE = ClassDefault("edge of a tray, hole or hatch by ruler, 0.5 mm", "mm", 0.5)
KEEP_OUT = ClassDefault("surface measured by grid, 0.4 mm", "mm", 0.4)
PIVOT = ClassDefault("pivot by callipers, 0.4 mm", "mm", 0.4)
SECTION = ClassDefault("inside of a shell by ruler, 2 mm", "mm", 2.0)
CHORD = ClassDefault("chord by ruler, 2 mm", "mm", 2.0)
CONTACT = ClassDefault("wheel contact point by plumb line, 2 mm", "mm", 2.0)
AERIAL = ClassDefault("place of an aerial, 4 mm", "mm", 4.0)
FUEL_DENSITY = ClassDefault("density of kerosene mix, 1 %", "kg_m3", 0.0, 0.01)
FUEL_VOLUME = ClassDefault("tank volume by filling, 1 %", "ml", 0.0, 0.01)
SCALE = ClassDefault("kitchen or shipping scale, 10 g", "g", 10.0)
LEVEL = ClassDefault("inclinometer, 0.4 degrees", "deg", 0.4)
ALIGNMENT = ClassDefault("alignment by square, 0.5 degrees", "deg", 0.5)
TAIL_EFFICIENCY = ClassDefault("dynamic pressure at the tail, 0.05", "", 0.05)
