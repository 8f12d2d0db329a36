"""The fields of every table as a form shows them, made from the models that read the file."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from hardstand.changes import parse_address
from hardstand.description.model import ROWS, SINGLES
from hardstand.standards.units import UNITS, is_tolerance, split_suffix
from hardstand.views.number import value_in_file
from hardstand.views.schema import FILES, schema_of

Shape = Literal["number", "list", "text", "flag", "choice", "table"]


@dataclass(frozen=True)
class Field:
    """One field of a table.

    `label` are its name's words, `unit` the symbol of the unit it is in, `bounds` what may stand
    there in words, `help` what the table's description says of it, `tables` those whose ids it names.
    """

    name: str
    label: str
    unit: str
    shape: Shape
    help: str
    bounds: str
    default: str
    required: bool
    choices: tuple[str, ...] = ()
    tables: tuple[str, ...] = ()


@cache
def _definitions() -> Mapping[str, Mapping[str, Any]]:
    """The schema of every table by the table's name."""
    found: dict[str, Mapping[str, Any]] = {}
    for file in FILES:
        schema = schema_of(file)
        for table, own in schema["properties"].items():
            name = own.get("$ref", own.get("items", {}).get("$ref", "")).rpartition("/")[2]
            if name:
                found[table] = schema["$defs"][name]
    return found


@cache
def fields_of(table: str) -> tuple[Field, ...]:
    """The fields of a table, in the order of its model; raises KeyError for no such table.

    >>> mass = next(one for one in fields_of("item") if one.name == "mass_g")
    >>> mass.label, mass.unit, mass.shape, mass.bounds
    ('mass', 'g', 'number', '0 to 200000')
    """
    schema = _definitions()[table]
    text = str(schema.get("description", ""))
    required = set(schema.get("required", ()))
    return tuple(_field(name, own, text, required=name in required)
                 for name, own in schema["properties"].items())  # fmt: skip


def about_table(table: str) -> str:
    """What a table is, in the words of its model."""
    return str(_definitions()[table].get("description", "")).replace("`", "")


@cache
def holds_text(address: str) -> bool:
    """Whether the field at an address is one of text; raises AddressError."""
    where = parse_address(address)
    if where.kind not in (*ROWS, *SINGLES):
        return False
    found = next((one for one in fields_of(where.kind) if one.name == where.field), None)
    return found is not None and found.shape in ("text", "choice")


def _field(name: str, own: Mapping[str, Any], text: str, *, required: bool) -> Field:
    stem, suffix = split_suffix(name)
    words = stem.replace("_", " ")
    plain = _plain(own)
    tables = re.match(r"the id of (.+)", own.get("description", ""))
    standard = own.get("default")
    return Field(
        name=name, label=f"{words}, how well known" if is_tolerance(name) else words,
        unit=UNITS[suffix].metric[0].symbol if suffix else "", shape=_shape(plain),
        help=_said_of(name, text), bounds=_bounds(plain),
        default="" if standard in (None, "", []) else value_in_file(standard), required=required,
        choices=tuple(map(str, plain.get("enum", ()))),
        tables=tuple(tables[1].replace("-", "_").split(" or ")) if tables else (),
    )  # fmt: skip


def _plain(own: Mapping[str, Any]) -> Mapping[str, Any]:
    """The first form of a value that is neither absent nor text with a unit."""
    while "anyOf" in own:
        own = own["anyOf"][0]
    return own


def _shape(own: Mapping[str, Any]) -> Shape:
    if "enum" in own or "const" in own:
        return "choice"
    kinds: dict[str, Shape] = {"number": "number", "integer": "number", "array": "list", "boolean": "flag",
                               "object": "table", "string": "text"}  # fmt: skip
    return kinds.get(own.get("type", ""), "list")


def _bounds(own: Mapping[str, Any]) -> str:
    if own.get("type") == "array":
        least, most = own.get("minItems"), own.get("maxItems")
        if least is None and most is None:
            return "a list"
        return f"a list of {least}" if least == most else f"a list of {least or 0} to {most or 'many'}"
    low, high = own.get("minimum"), own.get("maximum")
    if low is None and high is None:
        return ""
    return f"{low:g} to {high:.9g}".replace("-", "−") if low is not None and high is not None else ""


def _said_of(name: str, text: str) -> str:
    """The sentences of a table's description that speak of a field."""
    sentences = re.split(r"(?<=[.:;])\s+(?=[A-Z`])", text)
    return " ".join(one for one in sentences if f"`{name}`" in one).replace("`", "")
