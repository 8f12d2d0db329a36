"""What the balance has to say where options are compared: mass, CG, and the ballast to the target.

The figures of an aeroplane that was weighed and of one that was not differ by more than the option:
where only some were weighed, the sums of the parts are compared.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot, isfinite
from typing import Any

from hardstand.engines.balance.judged import Judged, judged_states
from hardstand.engines.balance.model import Headline, Sums
from hardstand.engines.balance.shifts import ballast_to_reach_g
from hardstand.engines.balance.ways import room_g
from hardstand.engines.node import Compared
from hardstand.figures import Figure

PARTS_ALONE = "the parts alone"
ALIKE = f"{PARTS_ALONE}, for not all of them were weighed"
MASS = ("{} more mass", "{} less mass")
CG = ("CG {} further aft", "CG {} further forward")
BALLAST = ("{} more ballast to reach the target", "{} less ballast to reach the target")
STEP_G, STEP_MM, STEP_BALLAST_G = 100.0, 2.0, 25.0


def compared(asbuilt: Any, results: Mapping[str, Any]) -> tuple[Compared, ...]:
    """Mass, CG and ballast in the state that the CG is judged in, or in the first one."""
    head: Headline | None = results.get("balance.headline")
    built: Sums | None = results.get("balance.sums")
    if head is None or built is None:
        return ()
    judged = judged_states(asbuilt, head)
    state = judged[0].state_id if judged else head.state_ids[0]
    basis = "the weigh-in" if head.updated else PARTS_ALONE
    mass = head.figures.figure(f"balance.mass@{state}")
    mass_built = built.figures.figure(f"balance.built-mass@{state}")
    cg, cg_built = _cg(asbuilt, head, built, state)
    found = [
        Compared("balance.mass", f"mass, state {state}", mass, MASS, STEP_G, basis=basis, alike=mass_built,
                 alike_basis=ALIKE),
        Compared("balance.cg", f"CG, state {state}", cg, CG, STEP_MM, basis=basis, alike=cg_built,
                 alike_basis=ALIKE, note="" if cg else "there is no CG mark to measure it from"),
    ]  # fmt: skip
    if judged:
        found.append(_ballast(asbuilt, judged[0], mass_built.value, _station(built, state), basis))
    return tuple(found)


def _station(built: Sums, state: str) -> float:
    return built.figures.figure(f"balance.built-cg-x@{state}").value


def _cg(asbuilt: Any, head: Headline, built: Sums, state: str) -> tuple[Figure | None, Figure | None]:
    """The CG aft of the mark as judged, and from the parts alone."""
    address = f"balance.cg@{state}"
    if asbuilt.cg_mark is None or address not in head.figures.addresses:
        return None, None
    mark = asbuilt.cg_mark[0]
    x = built.figures.figure(f"balance.built-cg-x@{state}")
    alike = Figure(x.address, x.value - mark.value, "mm", hypot(x.u, mark.u), "computed",
                   label="CG aft of the mark from the parts alone")  # fmt: skip
    return head.figures.figure(address), alike


def _ballast(asbuilt: Any, judged: Judged, built_g: float, built_mm: float, basis: str) -> Compared:
    figure, of = ballast_figure(asbuilt, judged, judged.mass_g, judged.cg_mm)
    alike, of_alike = ballast_figure(asbuilt, judged, built_g, built_mm)
    none = "" if figure and alike else "no place for ballast that is described reaches the target"
    return Compared("balance.ballast", "ballast to the target", figure, BALLAST, STEP_BALLAST_G,
                    of=of or of_alike, note=none, basis=basis, alike=alike, alike_basis=ALIKE)  # fmt: skip


def ballast_figure(asbuilt: Any, judged: Judged, mass_g: float, cg_mm: float) -> tuple[Figure | None, str]:
    """The least ballast that brings the CG just into the target (else the range), and where it goes.

    0 where it is there already; None where no described place can take what it needs. mass_g, cg_mm:
    mass and station of the CG. The tolerance is not carried: it is a wish judged on the value alone.
    """
    low, high = judged.target_mm or judged.range_mm or (cg_mm, cg_mm)
    goal = min(max(cg_mm, low), high)
    address = f"balance.ballast@{judged.state_id}"
    if goal == cg_mm:
        return Figure(address, 0.0, "g", 0.0, "computed", label="ballast to the target"), ""
    found = []
    for place in asbuilt.ballast_places:
        needed = float(ballast_to_reach_g(mass_g, cg_mm, goal, place.at_mm[0]))
        if isfinite(needed) and needed <= room_g(place, asbuilt.masses):
            found.append((needed, place.name or place.id))
    if not found:
        return None, ""
    grams, where = min(found)
    return Figure(address, grams, "g", 0.0, "computed", label="ballast to the target"), f"at {where}"
