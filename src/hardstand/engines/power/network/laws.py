"""The laws of the elements that are not plain resistances: current by the voltages at both ends.

Each law holds arrays (elements of its kind, cases or 1) in volts, amperes and ohms, and gives the
currents with their slopes. They rise with the voltage at the start and fall with that at the end,
except for a load or an input of constant power.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network import smooth

Floats = NDArray[np.float64]
LIMIT_KNEE = 0.02  # width of the bend of a current limit, as a share of the limit
CLEAR = 40.0  # so many knees away, a bend makes no difference that a double can hold
CUT_OFF_KNEE_V = 0.005  # width over which a load switches itself off
LEAST_INPUT_V = 0.5  # a converter's input current is reckoned with at least this voltage
LEAK_SIEMENS = (
    1e-6  # of an ideal diode that is shut: microamperes; usual of such devices, from memory
)
BLEED_SIEMENS = 1e-6  # from a regulator's output to ground: the divider by which it measures itself
ELECTRON_VOLT_KELVIN = 8.617333262e-5  # Boltzmann's constant over the elementary charge (exact SI)


class Flow(NamedTuple):
    """Current into the element at its start and out of it at its end, each with its two slopes."""

    into: Floats
    out: Floats
    into_start: Floats
    into_end: Floats
    out_start: Floats
    out_end: Floats


def _through(current: Floats, slope: Floats) -> Flow:
    """A flow that depends on the difference of voltages, and leaves as it came."""
    return Flow(current, current, slope, -slope, slope, -slope)


@dataclass(frozen=True, slots=True)
class DiodeLaw:
    """Ideal diodes: a straight line from the drop on, with a knee; shut, it leaks microamperes."""

    on: Floats
    siemens: Floats
    drop: Floats
    knee: Floats

    def flow(self, start: Floats, end: Floats, wide: Floats | float = 0.0) -> Flow:
        """The current at these voltages, with knees of at least `wide` V."""
        knee = np.maximum(self.knee, wide)
        across = start - end
        value, slope = smooth.bend((across - self.drop) / knee)
        at_rest = np.log1p(np.exp(-self.drop / knee))  # without it a shut diode would be a source
        current = self.siemens * knee * (value - at_rest) + LEAK_SIEMENS * across
        return _through(self.on * current, self.on * (self.siemens * slope + LEAK_SIEMENS))


@dataclass(frozen=True, slots=True)
class JunctionLaw:
    """Junction diodes with series resistance, solved in closed form."""

    on: Floats
    ohm: Floats
    saturation: Floats
    thermal: Floats

    def flow(self, start: Floats, end: Floats, wide: Floats | float = 0.0) -> Flow:
        """The current at these voltages, with knees of at least `wide` V."""
        scale = self.saturation * self.ohm
        thermal = np.maximum(self.thermal, wide)
        value, slope = smooth.omega((start - end + scale) / thermal + np.log(scale / thermal))
        current = self.on * (value * thermal / self.ohm - self.saturation)
        return _through(current, self.on * slope / self.ohm)


@dataclass(frozen=True, slots=True)
class LimiterLaw:
    """Current-limited switches: a resistance up to the limit, then the limit."""

    on: Floats
    ohm: Floats
    limit: Floats

    def flow(self, start: Floats, end: Floats, wide: Floats | float = 0.0) -> Flow:
        """The current at these voltages, with knees of at least `wide` V."""
        knee = np.maximum(LIMIT_KNEE * self.limit, wide / self.ohm)
        plain = (start - end) / self.ohm
        above, above_slope = smooth.bend((plain - self.limit) / knee)
        below, below_slope = smooth.bend((-plain - self.limit) / knee)
        current = plain + knee * (below - above)
        return _through(self.on * current, self.on * (1.0 - above_slope - below_slope) / self.ohm)


@dataclass(frozen=True, slots=True)
class RegulatorLaw:
    """Regulators: the lower of set voltage and input less dropout drives the output's resistance.

    `efficiency` is 0 for a linear one, where what goes in comes out.
    """

    on: Floats
    set_v: Floats
    dropout: Floats
    ohm: Floats
    knee: Floats
    limit: Floats
    efficiency: Floats

    def flow(self, start: Floats, end: Floats, wide: Floats | float = 0.0) -> Flow:
        """The currents at these voltages, with knees of at least `wide` V."""
        knee = np.maximum(self.knee, wide)
        short, short_slope = smooth.bend((self.set_v - start + self.dropout) / knee)
        driven = self.set_v - knee * short
        value, slope = smooth.bend((driven - end) / knee)
        out = self.on * knee * value / self.ohm
        by_end = -self.on * slope / self.ohm
        if np.isfinite(self.limit).any():
            width = LIMIT_KNEE * np.where(np.isfinite(self.limit), self.limit, 1.0)
            above, above_slope = smooth.bend((out - self.limit) / width)
            out, by_end = out - width * above, by_end * (1.0 - above_slope)
        by_start = -by_end * short_slope
        bled = out - BLEED_SIEMENS * end
        if not self.efficiency.any():
            return Flow(out, bled, by_start, by_end, by_start, by_end - BLEED_SIEMENS)
        converts = self.efficiency > 0.0
        share = np.where(converts, self.efficiency, 1.0)
        least = np.maximum(start, LEAST_INPUT_V)
        ratio = np.where(converts, np.maximum(end, 0.0) / (share * least), 1.0)
        ratio_start = np.where(converts & (start > LEAST_INPUT_V), -ratio / least, 0.0)
        ratio_end = np.where(converts & (end > 0.0), 1.0 / (share * least), 0.0)
        return Flow(
            out * ratio,
            bled,
            by_start * ratio + out * ratio_start,
            by_end * ratio + out * ratio_end,
            by_start,
            by_end - BLEED_SIEMENS,
        )


@dataclass(frozen=True, slots=True)
class LoadLaw:
    """Loads: a constant current, a constant power and a conductance each, with floor and cut-off."""

    current: Floats
    power: Floats
    siemens: Floats
    floor: Floats
    cut_off: Floats

    def flow(self, start: Floats, end: Floats, wide: Floats | float = 0.0) -> Flow:
        """The current at these voltages, with knees of at least `wide` V."""
        v = start - end
        if (v >= self.floor).all():
            current = self.current + self.siemens * v
            slope = np.broadcast_to(self.siemens, v.shape)
        else:
            share, share_slope = smooth.rise(v / self.floor)
            current = self.current * share + self.siemens * v
            slope = self.current * share_slope / self.floor + self.siemens
        if self.power.any():
            current, slope = self._with_power(v, current, slope)
        near = (v < self.cut_off + CLEAR * CUT_OFF_KNEE_V) & (self.cut_off > 0.0)
        if near.any() or (np.any(wide) and self.cut_off.any()):
            current, slope = self._cut_off(v, current, slope, wide)
        return _through(current, slope)

    def _with_power(self, v: Floats, current: Floats, slope: Floats) -> tuple[Floats, Floats]:
        """Add the constant power, which becomes the floor's current falling away below it."""
        rows = np.flatnonzero(self.power.any(axis=1))
        power, floor, v = self.power[rows], self.floor[rows], v[rows]
        current, slope = current.copy(), np.array(slope)
        if (v >= floor).all():
            drawn = power / v
            current[rows] += drawn
            slope[rows] -= drawn / v
            return current, slope
        held = np.maximum(v, floor)
        share, share_slope = smooth.rise(v / floor)
        current[rows] += power / held * share
        slope[rows] += power * np.where(v > floor, -1.0 / held**2, share_slope / floor**2)
        return current, slope

    def _cut_off(
        self, v: Floats, current: Floats, slope: Floats, wide: Floats | float
    ) -> tuple[Floats, Floats]:
        """Switch loads with a cut-off off below it."""
        rows = np.flatnonzero(self.cut_off[:, 0] > 0.0)
        knee = np.maximum(CUT_OFF_KNEE_V, wide)
        on, on_slope = smooth.step((v[rows] - self.cut_off[rows]) / knee)
        current, slope = current.copy(), np.array(slope)
        slope[rows] = slope[rows] * on + current[rows] * on_slope / knee
        current[rows] *= on
        return current, slope


AnyLaw = DiodeLaw | JunctionLaw | LimiterLaw | RegulatorLaw | LoadLaw
