"""A number with unit, uncertainty, kind and parents.

Every engine returns plain arrays and one sensitivity matrix (a `FigureSet`). The `Figure` objects
that a person reads are built from it on demand, so that a thousand figures cost one matrix product.
Inside, `u` is always one standard uncertainty; what is printed after ± is twice that.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

Kind = Literal["measured", "declared", "assumed", "computed", "inferred"]
Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Input:
    """One number that came from outside the program: the leaf of every figure's tree.

    `address` says what it is (`item.rx-left.mass_g`), `stands_at` where it was written, which may be
    elsewhere (`part.receiver-12-channel.mass_g`), and is empty for a documented default. `u` is the
    standard uncertainty in `unit`; `u_from` says where that came from ("tolerance in the file", or
    the name of the class default).

    >>> Input("mass.fin.mass_g", 305.0, "g", 2.5).u
    2.5
    """

    address: str
    value: float
    unit: str
    u: float = 0.0
    kind: Kind = "declared"
    stands_at: str = ""
    u_from: str = ""


@dataclass(frozen=True, slots=True)
class Figure:
    """One number as a person reads it, with its parents by address.

    `parents` lists (address, change of this figure per unit of that parent), largest share of the
    variance first. `u` is one standard uncertainty in `unit`.
    """

    address: str
    value: float
    unit: str
    u: float
    kind: Kind
    parents: tuple[tuple[str, float], ...] = ()
    label: str = ""
    method: str = ""

    @property
    def expanded(self) -> float:
        """U = 2u, the half-width of about 95 %, in the figure's unit.

        >>> Figure("balance.cg-x@ref", 249.7, "mm", 1.5, "computed").expanded
        3.0
        """
        return 2.0 * self.u

    def as_json(self) -> dict[str, Any]:
        """The figure as plain data; `u` is standard uncertainty, as everywhere in JSON."""
        return {
            "address": self.address,
            "value": self.value,
            "unit": self.unit,
            "u": self.u,
            "kind": self.kind,
            "label": self.label,
        }


@dataclass(frozen=True)
class FigureSet:
    """Figures of one engine node as arrays: n outputs that depend on m inputs.

    values: shape (n,), each in its `units` entry. sensitivity: shape (n, m), output unit per input
    unit. `extra_u`, shape (n,), is standard uncertainty of the method itself that no input carries.
    `steps` names, for an output, the other figures it was worked out from (for `trace` only; the
    uncertainty is always taken through the sensitivities, so nothing is counted twice). `kind` is
    "inferred" where the values were fitted to measurements.

    >>> import numpy as np
    >>> inputs = (Input("mass.a.mass_g", 100.0, "g", 3.0), Input("mass.b.mass_g", 50.0, "g", 4.0))
    >>> total = FigureSet(("balance.mass@ref",), np.array([150.0]), ("g",), inputs,
    ...                   np.array([[1.0, 1.0]]))
    >>> float(total.u[0])
    5.0
    """

    addresses: tuple[str, ...]
    values: Array
    units: tuple[str, ...]
    inputs: tuple[Input, ...]
    sensitivity: Array
    extra_u: Array | None = None
    labels: tuple[str, ...] = ()
    steps: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    method: str = ""
    kind: Kind = "computed"

    @cached_property
    def input_u(self) -> Array:
        """Standard uncertainty of every input, shape (m,), each in its unit."""
        return np.array([one.u for one in self.inputs], dtype=np.float64)

    @cached_property
    def u(self) -> Array:
        """Standard uncertainty of every output, shape (n,): root sum of squares of S·u."""
        variance = (self.sensitivity**2) @ (self.input_u**2)
        if self.extra_u is not None:
            variance = variance + self.extra_u**2
        return np.asarray(np.sqrt(variance), dtype=np.float64)

    def figure(self, address: str) -> Figure:
        """Build one figure; raises KeyError for an address this set does not hold."""
        row = self._row(address)
        slope = self.sensitivity[row]
        used = np.flatnonzero(slope)
        order = used[np.argsort(-np.abs(slope[used]) * self.input_u[used], kind="stable")]
        addresses = [self.inputs[i].address for i in order.tolist()]
        parents = tuple(zip(addresses, slope[order].tolist(), strict=True))
        label = self.labels[row] if self.labels else ""
        return Figure(
            address,
            float(self.values[row]),
            self.units[row],
            float(self.u[row]),
            self.kind,
            parents,
            label,
            self.method,
        )

    def rests_on_assumed_only(self, address: str) -> bool:
        """True where every input that moves this figure is merely assumed: it may close no check."""
        used = [
            one
            for one, s in zip(self.inputs, self.sensitivity[self._row(address)], strict=True)
            if s != 0.0
        ]
        return bool(used) and all(one.kind == "assumed" for one in used)

    @cached_property
    def _rows(self) -> dict[str, int]:
        return {address: row for row, address in reversed(list(enumerate(self.addresses)))}

    def _row(self, address: str) -> int:
        try:
            return self._rows[address]
        except KeyError:
            raise KeyError(
                f"no figure {address!r} here; there are {', '.join(self.addresses)}"
            ) from None


def values_of(inputs: Iterable[Input]) -> Array:
    """The values of inputs as an array, in their order."""
    return np.array([one.value for one in inputs], dtype=np.float64)


def merged(inputs: Sequence[Sequence[Input]]) -> tuple[tuple[Input, ...], dict[str, int]]:
    """All inputs once each, in order of first use, and the column of each address."""
    columns: dict[str, int] = {}
    rows: list[Input] = []
    for group in inputs:
        for one in group:
            if one.address not in columns:
                columns[one.address] = len(rows)
                rows.append(one)
    return tuple(rows), columns
