"""Area, span and mean aerodynamic chord of a cranked planform."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hardstand.engines.balance.panel import Panel


@dataclass(frozen=True, slots=True)
class Planform:
    """What a planform amounts to, both halves together.

    `area_mm2` is projected on the horizontal plane, `span_mm` from tip to tip. `mac_mm` is the mean
    aerodynamic chord, `mac_y_mm` its distance from the centreline, `mac_x_mm` its leading edge.
    """

    area_mm2: float
    span_mm: float
    mac_mm: float
    mac_y_mm: float
    mac_x_mm: float

    @property
    def aspect_ratio(self) -> float:
        """Span squared over area."""
        return self.span_mm**2 / self.area_mm2

    def fraction_at(self, x_mm: float) -> float:
        """Return the place of `x_mm` along the mean aerodynamic chord, 0 at its leading edge.

        >>> Planform(760e3, 2000.0, 400.0, 421.0, 1200.0).fraction_at(1300.0)
        0.25
        """
        return (x_mm - self.mac_x_mm) / self.mac_mm

    def x_at(self, fraction: float) -> float:
        """Return the station in mm of a fraction of the mean aerodynamic chord."""
        return self.mac_x_mm + fraction * self.mac_mm


def planform(panels: Sequence[Panel]) -> Planform:
    """Integrate a surface of one or more panels to its area and mean aerodynamic chord.

    With local chord c(y) and leading edge x(y), both sides counted,

        S = int c dy,  MAC = int c^2 dy / S,  y = int c |y| dy / S,  x = int c x dy / S.

    Each panel has straight edges, so every integrand is a quadratic in y and Simpson's rule over
    the panel is exact. Dihedral is left out: the area is the projected one. Panels that stop at
    the body count as drawn; give the panels from the centreline for the usual gross area.

    Parameters: `panels`, any order, at least one, not overlapping. A mirrored panel counts twice.

    Returns a `Planform` in mm and mm2.

    Raises `ValueError` without panels.

    Example (a swept tapered wing):

    >>> from hardstand.engines.balance.panel import Section
    >>> wing = planform([Panel(Section(0, 0, 0, 400), Section(600, 1000, 0, 200))])
    >>> round(wing.area_mm2), round(wing.mac_mm, 2), round(wing.mac_x_mm, 2)
    (600000, 311.11, 266.67)

    Source: the integral definition, ESDU 76003 (value from memory); the example is
    "Mean Aerodynamic Chord", Public Domain Aeronautical Software, example 1 (seen).
    """
    if not panels:
        raise ValueError("a planform needs at least one panel")
    places = np.array(
        [[(s.x_mm, abs(s.y_mm), s.chord_mm) for s in (panel.root, panel.tip)] for panel in panels]
    )
    x, y, chord = np.moveaxis(
        np.stack([places[:, 0], places.mean(axis=1), places[:, 1]], axis=1), -1, 0
    )
    sides = np.array([2.0 if panel.mirrored else 1.0 for panel in panels])
    width = np.array([panel.span_mm for panel in panels])
    weight = (sides * width)[:, None] * np.array([1.0, 4.0, 1.0]) / 6.0
    area = float((weight * chord).sum())
    ends = [section.y_mm for panel in panels for section in (panel.root, panel.tip)]
    ends += [-panel.tip.y_mm for panel in panels if panel.mirrored]
    return Planform(
        area_mm2=area,
        span_mm=max(ends) - min(ends),
        mac_mm=float((weight * chord**2).sum()) / area,
        mac_y_mm=float((weight * chord * y).sum()) / area,
        mac_x_mm=float((weight * chord * x).sum()) / area,
    )


def tapered_mac_mm(root_chord_mm: float, taper: float) -> float:
    """Return the mean aerodynamic chord of one straight-tapered half: the closed form.

    MAC = 2/3 c0 (1 + t + t^2)/(1 + t), with t the taper ratio tip over root. Unit mm.
    Source: "Mean Aerodynamic Chord", Public Domain Aeronautical Software, example 1 (seen).

    >>> round(tapered_mac_mm(400.0, 0.5), 4)
    311.1111
    """
    return 2.0 / 3.0 * root_chord_mm * (1.0 + taper + taper**2) / (1.0 + taper)


def tapered_mac_y_mm(semispan_mm: float, taper: float) -> float:
    """Return the distance of that chord from the root: semispan/3 (1 + 2t)/(1 + t). Unit mm.

    Source: as `tapered_mac_mm`.

    >>> round(tapered_mac_y_mm(1000.0, 0.5), 4)
    444.4444
    """
    return semispan_mm / 3.0 * (1.0 + 2.0 * taper) / (1.0 + taper)
