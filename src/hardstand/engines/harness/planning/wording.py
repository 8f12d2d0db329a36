"""Requirements in words, and what equipment would help."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from hardstand.engines.harness.planning.contradiction import Key
from hardstand.engines.harness.planning.plugged import UNITS
from hardstand.engines.harness.planning.translation import Translation
from hardstand.engines.harness.saying import listed


def words(made: Translation, keys: Sequence[Key]) -> tuple[str, ...]:
    """Requirements in words, those of one kind taken together."""
    problem = made.problem
    by: dict[str, list[Key]] = {}
    for key in keys:
        by.setdefault(key[0], []).append(key)
    found: list[str] = []
    if outputs := [key[1] for key in by.get("output", ())]:
        each = "has an output" if len(outputs) == 1 else "each have an output"
        found.append(f"{listed(names(made, outputs))} {each}")
    if kept := [key[1] for key in by.get("kept", ())]:
        found.append(f"{listed(names(made, kept))} {'stays' if len(kept) == 1 else 'stay'} in place")
    for key in by.get("once", ()):
        place = problem.places[key[1]]
        found.append(f"{place.item} has {len(place.ends)} such outputs ({place.ends[0]} on), each for one plug")
    found += _barred(made, by.get("barred", []))
    found += [problem.capacities[key[1]].words for key in by.get("capacity", ())]
    found += [f"{problem.failures[key[1]].id} alone does not take {problem.groups[key[2]].words}"
              for key in by.get("apart", ())]  # fmt: skip
    return tuple(found)


def _barred(made: Translation, keys: Sequence[Key]) -> list[str]:
    problem = made.problem
    found: dict[tuple[int, str], list[str]] = {}
    for _, p, c in keys:
        found.setdefault((p, problem.plugs[p].barred[c]), []).append(problem.places[c].item)
    said = {
        "gyro": "{0} stays behind the gyro, which does not reach {1}",
        "current": "{0} draws {2:.2f} A, and the outputs of {1} carry less",
        "stuck": "{0} draws {3:.2f} A when it is stuck, more than the wires that feed {1} carry",
        "voltage": "{0} does not stand the voltage of {1}",
    }
    return [said[why].format(names(made, [p])[0], listed(dict.fromkeys(items)),
                             problem.plugs[p].ma / 1000.0, made.plugs[p].stuck_ma / 1000.0)
            for (p, why), items in found.items()]  # fmt: skip


def names(made: Translation, plugs: Iterable[int]) -> list[str]:
    """Plugs by their leads and what hangs on them."""
    return [f"{made.plugs[p].id} ({listed(made.plugs[p].items)})" for p in plugs]


def helps(made: Translation, failure: str) -> str:
    """What equipment would allow it."""
    box = made.net.boxes.get(failure)
    if box is None:
        return f"a second way beside {failure}"
    own = ", fed by a pack of its own and commanded by a receiver of its own" if box.kind in UNITS else ""
    return f"a second {box.kind} unit beside {failure}{own}".replace("pack unit", "pack")
