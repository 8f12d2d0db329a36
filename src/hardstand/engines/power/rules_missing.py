"""What was taken as usual, what can't be worked out, and what has no solution."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hardstand.description.network import Phase
from hardstand.engines.harness.model import Netlist
from hardstand.engines.power.model import Moments, PowerNetwork
from hardstand.findings import Finding

_WORDS = {
    "wire": "gauge 26 for the wire", "length": "500 mm for the length",
    "resistance": "25 ohms over the capacity in mAh for the resistance of a cell",
    "reset": "3.5 V for the voltage at which they restart",
}  # fmt: skip


def missing_findings(
    power: PowerNetwork, moments: Moments, net: Netlist, phases: Sequence[Phase]
) -> Iterator[Finding]:
    """Defaults that stand in, what is missing for the rest, and moments without a solution."""
    if any(one.kind == "servo" for one in power.consumers):
        yield Finding("power.class-current", "note", ("servo",),
                      "Servos draw what is declared of their class: their hinge moments have not been "
                      "worked out.")  # fmt: skip
    for word, taken in _WORDS.items():
        names = sorted({name for name, what in power.assumed if what == word})
        if names:
            yield Finding("power.assumption", "note", (word,),
                          f"Taken as usual for {', '.join(names)}: {taken}.")
    if not phases:
        yield Finding("power.missing", "measure", ("phase",),
                      "There are no phases of a flight: charge, flights and warmth can't be worked out. "
                      "Time the phases of one flight.")  # fmt: skip
    bare = tuple(name for name, box in net.boxes.items()
                 if box.kind == "pack" and name not in power.packs)  # fmt: skip
    if bare:
        yield Finding("power.missing", "measure", bare,
                      f"{', '.join(bare)} can't be reckoned with: give chemistry, cells and "
                      "capacity_mah of the part, from the label.")  # fmt: skip
    stuck = [one.label for one, well in zip(moments.moments, moments.settled, strict=True) if not well]
    if stuck:
        yield Finding("power.collapse", "no-go", tuple(power.packs),
                      f"The packs can't give what is asked of them ({'; '.join(stuck)}).")
