"""The description as JSON Schema, one for each kind of file, so that an editor can help."""

from __future__ import annotations

from typing import Any

from hardstand.description.fields import Ref, Table
from hardstand.description.model import (
    MEASUREMENT_TABLES,
    PARTS_TABLES,
    ROWS,
    SINGLES,
)
from hardstand.standards.units import UNITS, split_suffix

FILES = ("aeroplane", "parts", "measurements")
_DIALECT = "https://json-schema.org/draft/2020-12/schema"
_TITLES = {"aeroplane": "aeroplane.toml", "parts": "parts/*.toml", "measurements": "measurements.toml"}


def schema_of(file: str) -> dict[str, Any]:
    """The JSON Schema of one kind of file: "aeroplane", "parts" or "measurements".

    >>> sorted(schema_of("parts")["properties"])
    ['part', 'port']
    """
    tables = {"parts": PARTS_TABLES, "measurements": MEASUREMENT_TABLES}.get(file)
    rows = [name for name in ROWS if (name in tables if tables else not _elsewhere(name))]
    definitions: dict[str, Any] = {}
    properties: dict[str, Any] = {}
    if tables is None:
        properties["format"] = {"const": 1, "description": "the version of this form"}
        for name, model in SINGLES.items():
            properties[name] = _definition(model, definitions)
    for name in rows:
        properties[name] = {"type": "array", "items": _definition(ROWS[name], definitions)}
    required = ["format", "aeroplane"] if tables is None else []
    return {"$schema": _DIALECT, "title": _TITLES[file], "type": "object",
            "properties": properties, "required": required, "additionalProperties": False,
            "$defs": definitions}


def _elsewhere(table: str) -> bool:
    return table in MEASUREMENT_TABLES


def _definition(model: type[Table], definitions: dict[str, Any]) -> dict[str, Any]:
    name = model.__name__.strip("_")
    if name not in definitions:
        made = model.model_json_schema(by_alias=True)
        made.pop("title", None)
        made["description"] = " ".join(str(made.get("description", "")).split())
        _explain(made["properties"], model)
        definitions[name] = made
    return {"$ref": f"#/$defs/{name}"}


def _explain(properties: dict[str, Any], model: type[Table]) -> None:
    """Says what a field's unit is, allows text with a unit for it, and names what an id points at."""
    for field, info in model.model_fields.items():
        own = properties[info.alias or field]
        own.pop("title", None)
        unit = split_suffix(field)[1]
        if unit is not None:
            properties[info.alias or field] = own = _with_text(own)
            own["description"] = f'in {UNITS[unit].metric[0].symbol}; or text such as "{UNITS[unit].example}"'
        refs = [one for one in _metadata(info.annotation, info.metadata) if isinstance(one, Ref)]
        if refs:
            own["description"] = f"the id of {' or '.join(refs[0].tables).replace('_', '-')}"


def _metadata(annotation: Any, metadata: list[Any]) -> list[Any]:
    found = [*metadata, *getattr(annotation, "__metadata__", ())]
    for one in getattr(annotation, "__args__", ()):
        found += _metadata(one, [])
    return found


def _with_text(own: dict[str, Any]) -> dict[str, Any]:
    """A schema in which every number may also be text with a unit."""
    made: dict[str, Any] = {}
    for key, value in own.items():
        if key in ("items", "additionalItems") and isinstance(value, dict):
            made[key] = _with_text(value)
        elif key in ("anyOf", "prefixItems"):
            made[key] = [_with_text(one) for one in value]
        else:
            made[key] = value
    if made.get("type") in ("number", "integer"):
        kept: dict[str, Any] = {key: made.pop(key) for key in ("default", "description")
                                if key in made}
        return {"anyOf": [made, {"type": "string", "pattern": r"^\s*[+\-−]?[\d.]"}], **kept}
    return made
