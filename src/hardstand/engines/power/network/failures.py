"""Single failures: what each kind of element can do wrong, and cases in which it does.

| element | open | short | stuck |
| --- | --- | --- | --- |
| lead, contact (`Resistor`) | broken | plus to minus at its end | - |
| `Switch` | broken | plus to minus at its end | in the position it should have left |
| `Fuse` | blown | plus to minus at its end | does not blow |
| `Pack` | off its lead | pole to pole | one cell gone |
| `IdealDiode`, `Junction` | carries nothing | carries both ways | - |
| `Regulator` | gives nothing | input straight to the output | - |
| `Limiter` | carries nothing | no limit any more | never opens, goes on limiting |
| `Load` | draws nothing | pole to pole | draws its stuck current |

A short circuit leaves 5 milliohms (`elements.FAULT_MOHM`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal, get_args

import numpy as np

from hardstand.engines.power.network.cases import Cases
from hardstand.engines.power.network.elements import (
    AnyElement,
    Fuse,
    Limiter,
    Load,
    Pack,
    Switch,
)
from hardstand.engines.power.network.network import Network

FailureKind = Literal["open", "short", "stuck"]
NUMBERS = ("load_a", "charge", "resistance_factor", "cell_v", "copper_factor", "set_v", "closed")
FIELD = {"open": "opened", "short": "shorted", "stuck": "stuck"}


@dataclass(frozen=True, slots=True)
class Failure:
    """One element that fails in one way."""

    element: str
    kind: FailureKind


def can_fail(element: AnyElement) -> tuple[FailureKind, ...]:
    """The ways in which an element can fail.

    >>> from hardstand.engines.power.network.elements import Resistor
    >>> can_fail(Resistor(id="H01", start="a", end="b", resistance_mohm=5.8))
    ('open', 'short')
    """
    stuck = isinstance(element, Pack | Switch | Fuse | Limiter)
    if isinstance(element, Load):
        stuck = element.stuck_a is not None
    return get_args(FailureKind) if stuck else ("open", "short")


def single_failures(network: Network) -> tuple[Failure, ...]:
    """Every way in which one element of the network can fail, in the order of the elements."""
    return tuple(
        Failure(element.id, kind) for element in network.elements for kind in can_fail(element)
    )


def with_failures(network: Network, given: Cases, failures: Sequence[Failure | None]) -> Cases:
    """Each case with each failure: all cases of the first failure, then all of the second.

    None among the failures stands for none. Raises KeyError for an element that the network does
    not have, and ValueError for a way in which it cannot fail.
    """
    count = given.count
    every = (len(failures) * count, len(network.elements))
    flags = {
        name: np.tile(np.broadcast_to(getattr(given, name), (count, every[1])), (len(failures), 1))
        for name in FIELD.values()
    }
    for at, failure in enumerate(failures):
        if failure is None:
            continue
        column = network.element_at[failure.element]
        if failure.kind not in can_fail(network.elements[column]):
            raise ValueError(f"{failure.element} cannot fail as {failure.kind!r}")
        flags[FIELD[failure.kind]][at * count : (at + 1) * count, column] = True
    repeated = {
        name: np.tile(value, (len(failures), 1)) if len(value) > 1 else value
        for name in NUMBERS
        for value in (getattr(given, name),)
    }
    return replace(given, **repeated, **flags)
