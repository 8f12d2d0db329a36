"""Which places take a plug, and which of them it must not go to."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from hardstand.description.network import Channel
from hardstand.engines.harness.feeding import feeds, power_ways
from hardstand.engines.harness.model import HarnessPort, Netlist
from hardstand.engines.harness.planning.currents import wires_ma
from hardstand.engines.harness.planning.outputs import Outputs, shape, stabilised, straight_mm
from hardstand.engines.harness.planning.plugged import Plugged
from hardstand.engines.harness.planning.problem import Bar, Plug
from hardstand.engines.harness.rules_supply import NEAR_V
from hardstand.engines.harness.signals import signal_ways
from hardstand.engines.harness.voltages import voltages
from hardstand.findings import Limit

STEADIED = frozenset(("pitch", "roll", "yaw"))  # what a gyro is there for


class Fitting:
    """What the places are like for the plugs: fit, power, gyro, voltage, reach."""

    def __init__(
        self, bare: Netlist, found: Outputs, alive: set[int], limits: Mapping[str, Limit]
    ) -> None:
        self.found, self.alive, self.limits = found, alive, limits
        self.volts = voltages(bare, feeds(bare, power_ways(bare)))
        self.wires_ma = wires_ma(bare, found)
        kinds = {box.id: box.kind for box in bare.boxes.values()}
        steadied = stabilised(signal_ways(bare), kinds)
        self.steadied = {c for c, one in enumerate(found.places) if one.item in steadied}

    def plug(self, one: Plugged, channels: list[Channel], keep: Collection[str]) -> Plug:
        """One plug with where it may go."""
        now = self.found.spots[one.end]
        port = self.found.ports[now[0]]
        alike = [c for c, other in enumerate(self.found.ports) if shape(other) == shape(port)]
        fits = [c for c in alike if c in self.alive] or alike
        way = {c: straight_mm(self.found.ports[c].at_mm, one.to_mm) for c in fits}
        spare = self.limits["harness.spare-length"].low or 0.0
        short = frozenset(c for c in fits if one.length_mm is not None and way[c]
                          and one.length_mm - way[c] < spare)  # fmt: skip
        names = {one.id, *one.leads, *one.items, *(row.id for row in channels)}
        return Plug(one.id, now, one.ma, way, self._barred(one, now[0], fits, channels), short,
                    kept=bool(names & set(keep)))  # fmt: skip

    def _barred(
        self, one: Plugged, now: int, fits: list[int], channels: list[Channel]
    ) -> dict[int, Bar]:
        steady = any(STEADIED & set(row.function) for row in channels) and now in self.steadied
        wrong = {c for c in fits if not self._volts_fit(c, one.far)}
        thin = {c for c in fits if c != now and one.stuck_ma > self.wires_ma.get(c, one.stuck_ma)}
        share = (self.limits["harness.pin-load"].high or 100.0) / 100.0
        found: dict[int, Bar] = {}
        for c in fits:
            most_a = self.found.ports[c].current_a
            if most_a and one.ma > 1000.0 * most_a * share:
                found[c] = "current"
            elif steady and c not in self.steadied:
                found[c] = "gyro"
            elif c in thin and len(thin) < len(fits):
                found[c] = "stuck"
            elif c in wrong and len(wrong) < len(fits):
                found[c] = "voltage"
        return found

    def _volts_fit(self, place: int, far: Sequence[HarnessPort]) -> bool:
        volts = self.volts.get(self.found.places[place].domain)
        takes = [one for one in far if one.power in ("takes", "both")]
        return volts is None or all(
            (one.high_v is None or volts[1] <= one.high_v + NEAR_V)
            and (one.low_v is None or volts[0] >= one.low_v - NEAR_V)
            for one in takes)  # fmt: skip
