"""Figures put together one by one, where there are few of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from hardstand.engines.fit.model import Check
from hardstand.figures import FigureSet, Input


@dataclass
class Collected:
    """Checks with value, label and slopes, to be made into one set of figures.

    >>> found = Collected("plain geometry")
    >>> place = Input("item.rx.at_mm.y", 12.0, "mm", 0.3)
    >>> found.add(Check("x", "fit.x", ("rx",), "fit.x@rx"), 12.0, "off centre", {place: 1.0})
    >>> float(found.figures().u[0])
    0.3
    """

    method: str
    checks: list[Check] = field(default_factory=list)
    _values: list[float] = field(default_factory=list)
    _labels: list[str] = field(default_factory=list)
    _units: list[str] = field(default_factory=list)
    _slopes: list[Mapping[Input, float]] = field(default_factory=list)
    _steps: dict[str, tuple[str, ...]] = field(default_factory=dict)

    def add(
        self,
        check: Check,
        value: float,
        label: str,
        slopes: Mapping[Input, float],
        unit: str = "mm",
        steps: tuple[str, ...] = (),
    ) -> None:
        """Add one check. `slopes` is the change of its value per unit of each input."""
        self.checks.append(check)
        self._values.append(value)
        self._labels.append(label)
        self._units.append(unit)
        self._slopes.append(slopes)
        if steps:
            self._steps[check.address] = steps

    def figures(self) -> FigureSet:
        """The checks' figures, in the order in which they were added."""
        inputs = list(dict.fromkeys(one for row in self._slopes for one in row))
        column = {one: k for k, one in enumerate(inputs)}
        slope = np.zeros((len(self.checks), len(inputs)))
        for k, row in enumerate(self._slopes):
            for one, value in row.items():
                slope[k, column[one]] += value
        return FigureSet(
            tuple(check.address for check in self.checks),
            np.array(self._values, dtype=np.float64),
            tuple(self._units),
            tuple(inputs),
            slope,
            labels=tuple(self._labels),
            steps=self._steps,
            method=self.method,
        )
