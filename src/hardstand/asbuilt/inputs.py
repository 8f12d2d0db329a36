"""Numbers of the description as `Input`s: value, standard uncertainty, kind, and where written.

A tolerance in the file is the half-width of 95 %; it is halved here, once, and nowhere else.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hardstand.figures import Input, Kind
from hardstand.standards.tolerances import ClassDefault


@dataclass(frozen=True, slots=True)
class Measured:
    """A measurement in force: its tolerance (half-width of 95 %) and its id."""

    id: str
    tol: float | None


@dataclass(frozen=True, slots=True)
class Maker:
    """Makes inputs, knowing which addresses a measurement in force has overridden."""

    measured: Mapping[str, Measured]

    def scalar(
        self,
        address: str,
        value: float,
        unit: str,
        tol: float | None,
        default: ClassDefault,
        kind: Kind = "declared",
        stands_at: str | None = None,
        *,
        takes_tol: bool = True,
    ) -> Input:
        """One number. `tol` from the file wins over the class default; a measurement over both.

        `takes_tol` false: the tolerance of a measurement is not that of this number, which follows
        what was measured and something else besides.

        >>> from hardstand.standards.tolerances import CG_MARK
        >>> made = Maker({}).scalar("cg_mark.at_mm.x", 1045.0, "mm", None, CG_MARK)
        >>> made.u, made.u_from
        (0.5, 'class default: point touched with a ruler, 1 mm')
        """
        base = address.rsplit(".", 1)[0] if address.endswith((".x", ".y", ".z")) else address
        found = self.measured.get(base) or self.measured.get(stands_at or "")
        if found is not None:
            kind, stands_at = "measured", f"measurement.{found.id}.value"
            tol = found.tol if takes_tol and found.tol is not None else tol
        if tol is not None:
            half, u_from = tol, "tolerance in the file"
        else:
            half, u_from = default.tolerance(value), f"class default: {default.name}"
        return Input(
            address,
            float(value),
            unit,
            half / 2.0,
            kind,
            address if stands_at is None else stands_at,
            u_from,
        )

    def point(
        self,
        address: str,
        value: tuple[float, ...],
        tol: float | None,
        default: ClassDefault,
        kind: Kind = "declared",
        unit: str = "mm",
        stands_at: str | None = None,
        *,
        takes_tol: bool = True,
    ) -> tuple[Input, Input, Input]:
        """Three coordinates as inputs `address.x`, `.y`, `.z`, all standing at `address` or elsewhere."""
        at = address if stands_at is None else stands_at
        x, y, z = (
            self.scalar(
                f"{address}.{axis}", one, unit, tol, default, kind, at, takes_tol=takes_tol
            )
            for axis, one in zip("xyz", value, strict=True)
        )
        return x, y, z
