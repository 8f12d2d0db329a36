"""A weigh-in as the bench takes it, made rows: on scales under the legs, or on a two-point stand."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from hardstand.asbuilt.measuring import MeasureError
from hardstand.changes import AddRow
from hardstand.description.aliases import names_of, present_id
from hardstand.description.model import Description
from hardstand.description.new_ids import free_id
from hardstand.description.problems import listed, nearest
from hardstand.description.read import Read
from hardstand.description.weighed import altering

SCALES = (2, 3)


def weigh_in_rows(read: Read, weighing: Mapping[str, Any],
                  readings: Sequence[Mapping[str, Any]]) -> list[AddRow]:
    """The rows of one weigh-in: `[[weighing]]`, and `[[reading]]` for each scale.

    `weighing` and `readings` hold the fields of the rows as far as they are known (None: not given),
    without ids; with `stand_x_mm` it is a stand, else scales. A former id of a state or a leg is taken
    as the present one. The options laid over that alter a mass or its place are written down with it.
    Raises MeasureError where something is missing or is not there.
    """
    description = read.description
    given = {key: one for key, one in weighing.items() if one is not None}
    given["state"] = _known(description, "state", given.get("state"))
    on_stand = "stand_x_mm" in given
    if on_stand:
        _check_stand(given, readings)
    else:
        _check_scales(given, readings)
    name = _next_name(read.ids_taken("weighing"))
    method = {"method": "stand"} if on_stand else {}
    built_in = [one for one in dict.fromkeys(read.options) if one in altering(read.raw)]
    with_options = {"options": built_in} if built_in else {}
    rows = [AddRow("weighing", {"id": name, "state": given.pop("state"), **method, **given,
                                **with_options})]  # fmt: skip
    taken = read.ids_taken("reading")
    for one in readings:
        row = {key: value for key, value in one.items() if value is not None}
        if "under" in row:
            row["under"] = _known(description, "leg", row["under"])
        reading_id = free_id(f"{name}-{row.get('under', 'scale')}", taken)
        taken.add(reading_id)
        rows.append(AddRow("reading", {"id": reading_id, "weighing": name, **row}))
    return rows


def _known(description: Description, kind: str, asked: str | None) -> str:
    """The id of a state or a leg that is described."""
    ids = [one.id for one in getattr(description, kind)]
    there = f"The {kind}s are {listed(ids, 12)}." if ids else f"Describe [[{kind}]] first."
    if asked is None:
        raise MeasureError(f"In which {kind} was it weighed?", f"Give it with --{kind}. {there}")
    now = present_id(kind, asked, names_of(description.alias))
    if now not in ids:
        near = nearest(asked, ids)
        raise MeasureError(f"There is no {kind} {asked}.", f"Did you mean {near}?" if near else there)
    return now


def _check_scales(given: Mapping[str, Any], readings: Sequence[Mapping[str, Any]]) -> None:
    stray = {"tips": "--tips", "weight_g": "--weight", "weight_x_mm": "--at"}
    for field, option in stray.items():
        if field in given:
            raise MeasureError(f"{option} belongs to a stand.", "Say where that stood with --stand.")
    if not readings:
        raise MeasureError("Nothing was weighed.", "Give a reading for each scale, such as "
                           "nose-leg=1565, or --stand with --tips for a two-point stand.")
    if len(readings) not in SCALES:
        count = "1 reading is" if len(readings) == 1 else f"{len(readings)} readings are"
        raise MeasureError(f"{count} given.", "A weigh-in takes two or three scales.")
    legs = [one["under"] for one in readings if one.get("under")]
    twice = next((leg for leg in legs if legs.count(leg) > 1), None)
    if twice is not None:
        raise MeasureError(f"There are two readings of {twice}.", "Give one for each leg.")


def _check_stand(given: Mapping[str, Any], readings: Sequence[Mapping[str, Any]]) -> None:
    if readings:
        raise MeasureError("Readings of scales and a stand are two weigh-ins.", "Enter each by itself.")
    if "tips" not in given:
        raise MeasureError("Which way does it tip on the stand?", "Give --tips nose, tail or level.")
    if ("weight_g" in given) != ("weight_x_mm" in given):
        raise MeasureError("The weight that levels it needs its place.",
                           "Give both --weight and --at.")


def _next_name(taken: Iterable[str]) -> str:
    """The name of the next weigh-in.

    >>> _next_name(["weigh-in-1", "first"])
    'weigh-in-2'
    """
    names = set(taken)
    number = 1
    while f"weigh-in-{number}" in names:
        number += 1
    return f"weigh-in-{number}"
