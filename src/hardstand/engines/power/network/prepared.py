"""Cases turned into what the solver works on: conductances, sources and laws, elements by cases."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.cases import Cases
from hardstand.engines.power.network.elements import (
    FAULT_MOHM,
    Fuse,
    Pack,
    Resistor,
    Switch,
)
from hardstand.engines.power.network.laws import AnyLaw
from hardstand.engines.power.network.laws_of import column, laws
from hardstand.engines.power.network.network import Network

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


def taken(values: Floats, columns: Indices) -> Floats:
    """Some columns of an array, or all of it where it has one for all cases."""
    return values[:, columns] if values.shape[1] > 1 else values


def _law_taken(law: AnyLaw, columns: Indices) -> AnyLaw:
    """A law for some of the cases."""
    some: Any = {one.name: taken(getattr(law, one.name), columns) for one in fields(law)}
    return replace(law, **some)


@dataclass(frozen=True, slots=True)
class Part:
    """The elements of one kind with their law; `at` are their places among all elements."""

    at: Indices
    start: Indices
    end: Indices
    law: AnyLaw


@dataclass(frozen=True, slots=True)
class Prepared:
    """All elements of some cases: first axis elements, second axis cases (or one for all).

    `plain` are the places of the plain resistances among all elements and `packs` those of the packs;
    `plain_siemens`, `pack_siemens` and `emf_v` belong to them. `fault_siemens` (E) are those of the
    short circuits between nodes `fault_start` and `fault_end`; `parts` have a law.
    """

    plain: Indices
    plain_siemens: Floats
    packs: Indices
    pack_siemens: Floats
    emf_v: Floats
    fault_siemens: Floats
    fault_start: Indices
    fault_end: Indices
    parts: tuple[Part, ...]

    def take(self, columns: Indices) -> Prepared:
        """The same for some of the cases."""
        parts = tuple(replace(part, law=_law_taken(part.law, columns)) for part in self.parts)
        return replace(
            self,
            plain_siemens=taken(self.plain_siemens, columns),
            pack_siemens=taken(self.pack_siemens, columns),
            emf_v=taken(self.emf_v, columns),
            fault_siemens=taken(self.fault_siemens, columns),
            parts=parts,
        )


def pack_state(network: Network, charge: Floats) -> tuple[Floats, Floats]:
    """Open-circuit voltage (V) and resistance (ohm) of every pack by its charge, (packs, cases)."""
    emf, ohm = np.empty(charge.T.shape), np.empty(charge.T.shape)
    for at, pack in enumerate(network.packs):
        emf[at] = pack.cells * np.interp(charge[:, at], pack.curve_charge, pack.curve_v)
        ohm[at] = 1e-3 * pack.resistance_mohm
        if pack.resistance_factors:
            ohm[at] *= np.interp(charge[:, at], pack.curve_charge, pack.resistance_factors)
    return emf, ohm


def pack_sources(network: Network, given: Cases) -> tuple[Floats, Floats]:
    """Conductance (siemens) and voltage (V) of every pack as a source, (packs, cases or 1)."""
    packs = network.where(Pack)
    emf_v, ohm = pack_state(network, given.charge)
    if given.cell_v.any():
        emf_v = emf_v + column([pack.cells for pack in network.packs]) * given.cell_v.T
    weak = column([1.0 - 1.0 / pack.cells for pack in network.packs])
    if (stuck := given.stuck.T[packs]).any():
        emf_v = np.where(stuck, weak * emf_v, emf_v)
    lasting = np.where(given.opened.T[packs], 0.0, 1.0)
    return lasting / (ohm * given.resistance_factor.T), emf_v


def prepare(network: Network, given: Cases) -> Prepared:
    """Turn cases into arrays for the solver.

    A short circuit of a lead, a contact, a switch or a fuse runs from its end to ground; one of
    anything else joins its two ends, and only a pack goes on working beside it.
    """
    ground = len(network.nodes)
    plain = np.concatenate([network.where(kind) for kind in (Resistor, Switch, Fuse)])
    packs, switches = network.where(Pack), network.where(Switch)
    opened, shorted = given.opened.T, given.shorted.T
    on = np.where(opened | shorted, 0.0, 1.0)
    lasting = np.where(opened, 0.0, 1.0)
    ohm = column([1e-3 * getattr(one, "resistance_mohm", np.inf) for one in network.elements])
    carries = lasting[plain]
    if switches.size:
        through = given.closed.T ^ given.stuck.T[switches]
        wide = max(carries.shape[1], through.shape[1])
        carries = np.repeat(carries, wide // carries.shape[1], axis=1)
        carries[np.isin(plain, switches)] *= through
    copper = np.isin(plain, network.where(Resistor))[:, None]
    plain_siemens = carries / (ohm[plain] * np.where(copper, given.copper_factor.T, 1.0))
    pack_siemens, emf_v = pack_sources(network, given)
    fault_start, fault_end = network.start.copy(), network.end.copy()
    at_ground = network.end[plain] == ground
    fault_start[plain] = np.where(at_ground, network.start[plain], network.end[plain])
    fault_end[plain] = ground
    parts = [
        Part(at, network.start[at], network.end[at], law)
        for kind, law in laws(network, given, on)
        if (at := network.where(kind)).size
    ]
    return Prepared(
        plain,
        plain_siemens,
        packs,
        pack_siemens,
        emf_v,
        shorted / (1e-3 * FAULT_MOHM),
        fault_start,
        fault_end,
        tuple(parts),
    )
