"""Validation errors in a builder's words: one for each kind, with the nearest valid name."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from hardstand.description.fields import LARGEST, LEAST, PATTERNS, TEXT_PATTERN, Misread
from hardstand.description.problems import cut, listed, nearest
from hardstand.standards.units import UNITS, split_suffix

Words = tuple[str, str, str]  # what is wrong, what was expected, what to do
Reword = Callable[[ErrorDetails, type[BaseModel]], Words]

_COMPARED = {
    "greater_than": ("gt", "more than"),
    "greater_than_equal": ("ge", "at least"),
    "less_than": ("lt", "less than"),
    "less_than_equal": ("le", "at most"),
}
_SHAPES = {
    "string_type": "text in quotes",
    "bool_type": "true or false",
    "tuple_type": "a list in square brackets",
    "list_type": "a list in square brackets",
    "dict_type": "a table",
    "model_type": "a table",
    "model_attributes_type": "a table",
}


def fields_of(model: type[BaseModel]) -> list[str]:
    """The names of a model's fields as they stand in the file."""
    return [field.alias or name for name, field in model.model_fields.items()]


def near_field(key: str, model: type[BaseModel]) -> str:
    """The field that a wrong key was most likely to be, or an empty string.

    A name with another unit, or without one, is nearer than one that only looks alike.

    >>> from hardstand.description.items import Item
    >>> near_field("mass_kg", Item), near_field("turn", Item), near_field("trn_deg", Item)
    ('mass_g', 'turn_deg', 'turn_deg')
    """
    known = fields_of(model)
    words = key[:60].lower().replace("-", "_").split("_")
    stems = {"_".join(words), "_".join(words[:-1])}
    same = [name for name in known if split_suffix(name)[0] in stems]
    return same[0] if same else nearest(key, known)


def _unknown_key(error: ErrorDetails, model: type[BaseModel]) -> Words:
    key = str(error["loc"][-1])
    near = near_field(key, model)
    stem, unit = split_suffix(near)
    if near and unit and key.startswith(stem) and key != near:
        hint = f'write {near}, in {_symbol(unit)}; another unit can be written as text, {near} = "…"'
    elif near:
        hint = f"did you mean {near}?"
    else:
        hint = "take the line out, or see `hardstand schema` for what each table may hold"
    known = f"one of {listed(sorted(fields_of(model)), 40)}"
    return f"there is no field {cut(key).strip(chr(34))} here", known, hint


def _missing(error: ErrorDetails, _: type[BaseModel]) -> Words:
    key = error["loc"][-1]
    if isinstance(key, int):
        return _entries(len(error["input"]), f"{key + 1} entries")
    return f"{key} is missing", f"a line `{key} = …`", f"add {key}"


def _entries(found: int, expected: str) -> Words:
    entries = "1 entry" if found == 1 else f"{found} entries"
    return f"this list has {entries}", expected, ""


def _symbol(unit: str) -> str:
    return UNITS[unit].metric[0].symbol


def _compared(error: ErrorDetails, _: type[BaseModel]) -> Words:
    name, words = _COMPARED[error["type"]]
    unit = split_suffix(str(error["loc"][0]))[1] if error["loc"] else None
    after = f" {_symbol(unit)}" if unit else ""
    hint = f"{error['loc'][0]} is in {_symbol(unit)}" if unit else ""
    bound = error["ctx"][name]
    # the least that is meant at all stands for "any, but not none"
    wanted = f"more than 0{after}" if bound == LEAST else f"{words} {bound:g}{after}"
    return f"{cut(error['input'])} is out of range", wanted, hint


def _number(error: ErrorDetails, _: type[BaseModel]) -> Words:
    found = error["input"]
    if isinstance(found, Misread):
        return found.why.partition(". Expected ")[0], found.why.partition(". Expected ")[2], ""
    if isinstance(found, int) and not isinstance(found, bool):
        return "this number is out of range", f"at most {LARGEST:g}", ""
    hint = "write the number without quotes" if isinstance(found, str) else ""
    return f"{cut(found)} is not a number", "a number", hint


def _whole_number(error: ErrorDetails, model: type[BaseModel]) -> Words:
    if isinstance(error["input"], float):
        return f"{cut(error['input'])} is not a whole number", "a whole number, without a point", ""
    what, _, hint = _number(error, model)
    return what, "a whole number", hint


def _choice(error: ErrorDetails, _: type[BaseModel]) -> Words:
    choices = error["ctx"]["expected"].replace("'", "").replace(" or ", ", ").split(", ")
    near = nearest(str(error["input"]), choices) if isinstance(error["input"], str) else ""
    what = f"{cut(error['input'])} is not one of the words known here"
    return what, f"one of {listed(choices, 40)}", f"did you mean {near}?" if near else ""


def _pattern(error: ErrorDetails, _: type[BaseModel]) -> Words:
    pattern = error["ctx"]["pattern"]
    if pattern == TEXT_PATTERN:
        return "this text holds a character that cannot be seen", PATTERNS[pattern], ""
    return f"{cut(error['input'])} cannot stand here", PATTERNS.get(pattern, ""), ""


def _own_words(error: ErrorDetails, _: type[BaseModel]) -> Words:
    return str(error.get("ctx", {}).get("error", error["msg"])), "", ""


def _count(error: ErrorDetails, _: type[BaseModel]) -> Words:
    context = error["ctx"]
    wanted = context.get("min_length", context.get("max_length"))
    words = "at least" if error["type"] == "too_short" else "at most"
    found = context.get("actual_length")
    return _entries(len(error["input"]) if found is None else found, f"{words} {wanted} entries")


def _shape(error: ErrorDetails, _: type[BaseModel]) -> Words:
    return f"{cut(error['input'])} has the wrong form", _SHAPES[error["type"]], ""


def _too_long(error: ErrorDetails, _: type[BaseModel]) -> Words:
    return "this text is too long", f"at most {error['ctx']['max_length']} characters", ""


def _not_finite(_: ErrorDetails, __: type[BaseModel]) -> Words:
    return "this number is not finite", "an ordinary number", ""


_BY_KIND: dict[str, Reword] = {
    "extra_forbidden": _unknown_key,
    "missing": _missing,
    "finite_number": _not_finite,
    "literal_error": _choice,
    "string_pattern_mismatch": _pattern,
    "value_error": _own_words,
    "string_too_long": _too_long,
    **dict.fromkeys(_COMPARED, _compared),
    **dict.fromkeys(("float_type", "float_parsing"), _number),
    **dict.fromkeys(("int_type", "int_from_float", "int_parsing", "int_parsing_size"),
                    _whole_number),
    **dict.fromkeys(_SHAPES, _shape),
    **dict.fromkeys(("too_short", "too_long"), _count),
}  # fmt: skip


def reworded(error: ErrorDetails, model: type[BaseModel]) -> Words:
    """(what, expected, hint) in plain words for one validation error of `model`."""
    handler = _BY_KIND.get(error["type"])
    if handler is None:
        return f"{cut(error['input'])} cannot stand here", "", ""
    return handler(error, model)


def path_in_words(table: str, row_id: str, loc: Sequence[int | str]) -> str:
    """The key path as a person says it.

    >>> path_in_words("item", "rx-left", ("at_mm", 1))
    'item rx-left, at_mm, number 2'
    """
    head = f"{table} {cut(row_id).strip(chr(34))}" if row_id else table
    tail = [f"number {part + 1}" if isinstance(part, int) else cut(part).strip('"') for part in loc]
    return ", ".join([head, *tail])
