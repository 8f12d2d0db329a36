"""Where an address stands in the builder's files, so that a number leads to its line."""

from __future__ import annotations

from typing import Any

from hardstand.changes import AddressError, parse_address
from hardstand.description.model import ROWS
from hardstand.description.raw import MAIN, Raw


def stand_of(raw: Raw, address: str) -> dict[str, Any]:
    r"""{"file", "line", "words"} of an address; file is None where no file of the builder's holds it.

    >>> text = 'format = 1\n[cg_mark]\nname = "a"\nat_mm = [1, 2, 3]\n'
    >>> stand_of(Raw({"aeroplane.toml": text}), "cg_mark.at_mm.x")["line"]
    4
    """
    try:
        where = parse_address(address)
    except AddressError:
        return {"file": None, "line": None, "words": address}
    if where.kind not in ROWS:
        file, line = raw.line(where.kind, -1, where.field)
        return {"file": file, "line": line, "words": ""}
    rows = raw.rows.get(where.kind, [])
    index = next((at for at, row in enumerate(rows) if row.get("id") == where.id), None)
    if index is None:
        words = f"catalogue part {where.id}" if where.kind in ("part", "port") else address
        return {"file": None, "line": None, "words": words}
    file, line = raw.line(where.kind, index, where.field)
    if line is None:
        return {"file": MAIN, "line": None, "words": "brought by an option"}
    return {"file": file, "line": line, "words": ""}
