"""The catalogue's own rows: `data/parts/*.toml`, read whole or one part at a time.

An aeroplane uses some thirty of its more than two hundred parts, and reading TOML costs more than
everything else done with them. So the files are first cut into their rows by the lines that open
them, and a row is read when it is asked for. This rests on one habit of these files, which a test
holds: a row's first line is its `id`, or for a port its `part`.
"""

from __future__ import annotations

import re
import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from hardstand.description.parts import Part, Port

Rows = tuple[list[dict[str, Any]], list[dict[str, Any]]]
_OPENING = re.compile(r'^\[\[(part|port)\]\]\n(?:id|part) = "([^"]+)"\n', re.MULTILINE)


@cache
def family_texts() -> dict[str, str]:
    """The text of each file of the catalogue by the file's name, in the order of the names.

    >>> "servos.toml" in family_texts()
    True
    """
    folder = files("hardstand") / "data" / "parts"
    found = {one.name: one for one in folder.iterdir() if one.name.endswith(".toml")}
    return {name: found[name].read_text(encoding="utf-8") for name in sorted(found)}


@cache
def _row_texts() -> dict[str, tuple[str, list[str]]]:
    """Part id → the text of its row and those of its ports' rows, still unread."""
    texts: dict[str, tuple[str, list[str]]] = {}
    ports: list[tuple[str, str]] = []
    for text in family_texts().values():
        openings = list(_OPENING.finditer(text))
        ends = [opening.start() for opening in openings[1:]] + [len(text)]
        for opening, end in zip(openings, ends, strict=True):
            row = text[opening.start() : end]
            if opening[1] == "part":
                texts[opening[2]] = (row, [])
            else:
                ports.append((opening[2], row))
    for part_id, row in ports:
        texts[part_id][1].append(row)
    return texts


@cache
def generic_ids() -> frozenset[str]:
    """The ids of the catalogue's parts.

    >>> "receiver-12-channel" in generic_ids()
    True
    """
    return frozenset(_row_texts())


@cache
def generic_part(part_id: str) -> tuple[Part, tuple[Port, ...]]:
    """One part of the catalogue and its own ports as their rows stand, without what it extends.

    Raises KeyError for an id that the catalogue does not have.

    >>> part, ports = generic_part("servo-mini-6v")
    >>> part.kind, ports[0].flying_lead_mm
    ('servo', 200.0)
    """
    part_text, port_texts = _row_texts()[part_id]
    ports = tuple(
        Port.model_validate(row)
        for text in port_texts for row in tomllib.loads(text)["port"]
    )
    return Part.model_validate(tomllib.loads(part_text)["part"][0]), ports


def generic_rows() -> Rows:
    """The catalogue's rows as they stand in its files: (part rows, port rows), fresh copies.

    >>> parts, ports = generic_rows()
    >>> parts[0].keys() >= {"id", "name"}
    True
    """
    parts, ports = _read_rows()
    return [dict(row) for row in parts], [dict(row) for row in ports]


@cache
def _read_rows() -> Rows:
    parts: list[dict[str, Any]] = []
    ports: list[dict[str, Any]] = []
    for text in family_texts().values():
        tables = tomllib.loads(text)
        parts += tables.get("part", [])
        ports += tables.get("port", [])
    return parts, ports


@cache
def generic() -> tuple[tuple[Part, ...], tuple[Port, ...]]:
    """The whole catalogue, checked: (parts, ports), each as its row stands.

    >>> parts, ports = generic()
    >>> len(parts) >= 90
    True
    """
    parts, ports = _read_rows()
    return (tuple(Part.model_validate(row) for row in parts),
            tuple(Port.model_validate(row) for row in ports))
