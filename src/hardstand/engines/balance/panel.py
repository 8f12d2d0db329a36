"""One trapezoidal piece of a lifting surface, and the little geometry that belongs to it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Section:
    """One end of a panel: its leading edge point and the chord that runs straight aft from it.

    Attributes: `x_mm`, `y_mm`, `z_mm` place the leading edge (x aft, y starboard, z up); `chord_mm`
    is the chord parallel to x, zero only at a pointed tip.

    >>> Section(980.0, 0.0, -25.0, 560.0).chord_mm
    560.0
    """

    x_mm: float
    y_mm: float
    z_mm: float
    chord_mm: float

    def __post_init__(self) -> None:
        """Refuse values that are not finite and chords below zero."""
        if not all(map(math.isfinite, (self.x_mm, self.y_mm, self.z_mm, self.chord_mm))):
            raise ValueError("a section needs finite numbers")
        if self.chord_mm < 0.0:
            raise ValueError(f"chord must not be negative: {self.chord_mm} mm")


@dataclass(frozen=True, slots=True)
class Panel:
    """A flat trapezoid between two sections with straight edges, no twist and no camber.

    A cranked or multi-tapered surface is a tuple of panels from the root outward. `mirrored` says
    that the same panel exists on the other side of y = 0. Twist and camber are left out on purpose:
    within linear theory they move the trim and not the neutral point. Steep surfaces (fins) do not
    belong here: the panel must have span along y.

    Raises `ValueError` if the tip is not further from y = 0 than the root, if the panel crosses
    y = 0, if a mirrored panel is not on the starboard side, or if its area is zero.

    >>> wing = Panel(Section(980, 0, -25, 560), Section(1500, 1000, -25, 200))
    >>> wing.span_mm
    1000.0
    """

    root: Section
    tip: Section
    mirrored: bool = True

    def __post_init__(self) -> None:
        """Refuse panels that no planform can hold."""
        root, tip = self.root.y_mm, self.tip.y_mm
        if root * tip < 0.0 or abs(tip) <= abs(root):
            raise ValueError(f"a panel runs outward from y = 0: root {root} mm, tip {tip} mm")
        if self.mirrored and tip <= 0.0:
            raise ValueError("a mirrored panel is given by its starboard half")
        if self.root.chord_mm <= 0.0:
            raise ValueError("the root chord must be greater than zero")

    @property
    def span_mm(self) -> float:
        """Width of this panel along y, mm, one side."""
        return float(abs(self.tip.y_mm - self.root.y_mm))

    def section_at(self, y_mm: float) -> Section:
        """Return the section at `y_mm` on the panel's straight edges, beyond its ends if asked.

        Raises `ValueError` if the edges have crossed before that place.

        >>> tail = Panel(Section(1960, 95, 55, 310), Section(2160, 480, 55, 140))
        >>> round(tail.section_at(0.0).chord_mm, 2)
        351.95
        """
        share = (y_mm - self.root.y_mm) / (self.tip.y_mm - self.root.y_mm)

        def line(start: float, end: float) -> float:
            return start + share * (end - start)

        return Section(
            line(self.root.x_mm, self.tip.x_mm),
            y_mm,
            line(self.root.z_mm, self.tip.z_mm),
            line(self.root.chord_mm, self.tip.chord_mm),
        )


def carried_to_centreline(panels: Sequence[Panel]) -> tuple[Panel, ...]:
    """Return the panels with the innermost one prolonged along its own edges to y = 0.

    This is how a surface is drawn when the body between its halves is taken to lift like the
    surface itself. A surface that already starts on the centreline comes back unchanged.
    Source: common practice, no source.

    >>> tail = Panel(Section(1960, 95, 55, 310), Section(2160, 480, 55, 140))
    >>> round(carried_to_centreline([tail])[0].root.x_mm, 2)
    1910.65
    """
    inner = min((abs(panel.root.y_mm) for panel in panels), default=0.0)
    return tuple(
        replace(panel, root=panel.section_at(0.0))
        if inner > 0.0 and abs(panel.root.y_mm) == inner
        else panel
        for panel in panels
    )
