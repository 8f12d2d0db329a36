"""The lines that the description alone gives: items, leads, and what the parts draw at rest."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.asbuilt.value import AsBuilt
from hardstand.comparison.lead_work import lead_work
from hardstand.engines.fit.lead_lengths import LeadLengths, lead_lengths
from hardstand.engines.node import Compared
from hardstand.figures import Figure, Kind


def lengths_of(asbuilt: AsBuilt, results: Mapping[str, Any]) -> LeadLengths:
    """The lengths of an aeroplane's leads; along the axes only where the fit placed the items."""
    solids = results.get("fit.solids")
    return lead_lengths(asbuilt.leads, solids.frames if solids is not None else {})


def described_lines(asbuilt: AsBuilt, base: AsBuilt, results: Mapping[str, Any]) -> list[Compared]:
    """Items, leads, their length in two ways, leads to make after `base`, current at rest."""
    lengths = lengths_of(asbuilt, results)
    count = len(asbuilt.leads)
    return [
        _counted("aeroplane.items", "items", len(asbuilt.items), ("item", "items")),
        _counted("aeroplane.leads", "leads", count, ("lead", "leads")),
        _length("aeroplane.lead-given", "lead, as described", lengths.given, count, "declared",
                "{} more lead as described", "{} less lead as described", "give a length"),
        _length("aeroplane.lead-along", "lead, port to port", lengths.along, count,
                "computed", "{} more lead along the axes from port to port",
                "{} less lead along the axes from port to port", "run between two ports"),
        _to_make(asbuilt, base, lengths),
        _at_rest(asbuilt),
    ]  # fmt: skip


def number(address: str, value: float, unit: str = "", kind: Kind = "computed") -> Figure:
    """A figure that is known without tolerance."""
    return Figure(address, float(value), unit, 0.0, kind)


def _counted(name: str, label: str, count: int, words: tuple[str, str]) -> Compared:
    return Compared(name, label, number(f"{name}@all", count), (f"{{}} more {words[1]}", f"{{}} fewer {words[1]}"),
                    2.0)  # fmt: skip


def _length(name: str, label: str, known: Mapping[str, float], count: int, kind: Kind, more: str,
            less: str, which: str) -> Compared:
    if not known:
        return Compared(name, label, None, (more, less), 500.0, note=f"no leads {which}")
    of = f"{len(known)} of {count} {which}" if len(known) < count else ""
    return Compared(name, label, number(f"{name}@all", sum(known.values()), "mm", kind), (more, less),
                    500.0, of=of)  # fmt: skip


def _to_make(asbuilt: AsBuilt, base: AsBuilt, lengths: LeadLengths) -> Compared:
    work = lead_work(base, asbuilt, dict(lengths.straight))
    named = [f"{name} ({why})" if why else name for name, why in zip(work.to_make, work.why, strict=True)]
    said = [", ".join(named)] if named else []
    said += [f"{len(work.elsewhere)} to plug in elsewhere"] if work.elsewhere else []
    said += [f"{', '.join(work.left_over)} left over"] if work.left_over else []
    words = ("{} leads to make", "{} fewer leads to make")
    figure = number("aeroplane.leads-to-make@all", len(work.to_make))
    return Compared("aeroplane.leads-to-make", "leads to make", figure, words, 2.0, of="; ".join(said))


def _at_rest(asbuilt: AsBuilt) -> Compared:
    known = [item.part.idle_a for item in asbuilt.items if item.part.idle_a is not None]
    label, words = "current at rest", ("{} more current at rest", "{} less current at rest")
    if not known:
        return Compared("aeroplane.at-rest", label, None, words, 0.5, note="not assessed: no part gives one")
    of = f"{len(known)} of {len(asbuilt.items)} items give one"
    return Compared("aeroplane.at-rest", label, number("aeroplane.at-rest@all", sum(known), "a", "declared"),
                    words, 0.5, of=of)  # fmt: skip
