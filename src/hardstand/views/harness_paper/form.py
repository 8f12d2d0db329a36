"""The making of the harness as plain data: cut list, adapters, bill of material, crossings, files."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from hardstand.engines.harness.model import Makings


def making_form(made: Makings, files: Iterable[tuple[str, str]], crossings: int) -> dict[str, Any]:
    """What `hardstand harness --json` prints; lengths in mm, wire in m; null where nothing is known."""
    return {
        "format": 1,
        "leads": [{"id": one.lead, "label": one.label, "function": one.function, "ends": list(one.ends),
                   "wire": one.wire, "conductors": one.conductors, "way_mm": one.way_mm,
                   "needed_mm": one.needed_mm, "cut_mm": one.cut_mm, "buy_mm": one.buy_mm,
                   "plugs": list(one.plugs)} for one in made.leads],
        "adapters": [{"lead": one.lead, "end": one.end, "plug": one.plug, "port": one.port}
                     for one in made.adapters],
        "bill": [{"what": one.what, "amount": one.amount, "unit": one.unit, "leads": list(one.leads)}
                 for one in made.bill],
        "crossings": crossings,
        "files": [{"what": what, "path": path} for what, path in files],
    }  # fmt: skip
