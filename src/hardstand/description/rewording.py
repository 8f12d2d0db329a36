"""Validation errors in a builder's words: one for each kind, with the nearest valid name."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from hardstand.description.problems import cut, listed, nearest
from hardstand.standards.units import split_suffix

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


def _unknown_key(error: ErrorDetails, model: type[BaseModel]) -> Words:
    key = str(error["loc"][-1])
    known = [field.alias or name for name, field in model.model_fields.items()]
    stem = split_suffix(key)[0]
    same_stem = [name for name in known if split_suffix(name)[0] == stem]
    near = same_stem[0] if same_stem else nearest(key, known)
    unit = split_suffix(near)[1]
    if same_stem and unit:
        hint = f'write {near}, in {unit}; another unit can be written as text, {near} = "…"'
    elif near:
        hint = f"did you mean {near}?"
    else:
        hint = "take the line out, or see `hardstand schema` for what each table may hold"
    return f"there is no field {key} here", f"one of {listed(sorted(known), 40)}", hint


def _missing(error: ErrorDetails, _: type[BaseModel]) -> Words:
    key = str(error["loc"][-1])
    return f"{key} is missing", f"a line `{key} = …`", f"add {key}"


def _compared(error: ErrorDetails, _: type[BaseModel]) -> Words:
    name, words = _COMPARED[error["type"]]
    return f"{cut(error['input'])} is out of range", f"{words} {error['ctx'][name]:g}", ""


def _number(error: ErrorDetails, _: type[BaseModel]) -> Words:
    hint = "write the number without quotes" if isinstance(error["input"], str) else ""
    return "this is not a number", "a number", hint


def _whole_number(error: ErrorDetails, model: type[BaseModel]) -> Words:
    what, _, hint = _number(error, model)
    whole = isinstance(error["input"], float)
    return "this is not a whole number" if whole else what, "a whole number", hint


def _choice(error: ErrorDetails, _: type[BaseModel]) -> Words:
    choices = error["ctx"]["expected"].replace("'", "").replace(" or ", ", ").split(", ")
    near = nearest(str(error["input"]), choices)
    what = f"{cut(error['input'])} is not one of the words known here"
    return what, f"one of {listed(choices, 40)}", f"did you mean {near}?" if near else ""


def _bad_id(error: ErrorDetails, _: type[BaseModel]) -> Words:
    wanted = "letters, figures, hyphens and underscores, beginning with a letter or figure"
    return f"{cut(error['input'])} cannot be an id", wanted, ""


def _own_words(error: ErrorDetails, _: type[BaseModel]) -> Words:
    return str(error.get("ctx", {}).get("error", error["msg"])), "", ""


def _count(error: ErrorDetails, _: type[BaseModel]) -> Words:
    context = error["ctx"]
    wanted = context.get("min_length", context.get("max_length"))
    words = "at least" if error["type"] == "too_short" else "at most"
    return f"this list has {context['actual_length']} entries", f"{words} {wanted} entries", ""


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
    "string_pattern_mismatch": _bad_id,
    "value_error": _own_words,
    "string_too_long": _too_long,
    **dict.fromkeys(_COMPARED, _compared),
    **dict.fromkeys(("float_type", "float_parsing"), _number),
    **dict.fromkeys(("int_type", "int_from_float", "int_parsing"), _whole_number),
    **dict.fromkeys(_SHAPES, _shape),
    **dict.fromkeys(("too_short", "too_long"), _count),
}


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
    head = f"{table} {row_id}" if row_id else table
    tail = [f"number {part + 1}" if isinstance(part, int) else part for part in loc]
    return ", ".join([head, *tail])
