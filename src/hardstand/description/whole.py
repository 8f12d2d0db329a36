"""What only the whole description can show: contradictions between rows that are each well formed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from hardstand.description.catalogue import Catalogue, PartError
from hardstand.description.model import Description
from hardstand.description.problems import Problem, listed, nearest
from hardstand.description.raw import Raw
from hardstand.standards.limits import BY_ID

FUEL_ROOM = 1.0 + 1e-9


def whole_problems(description: Description, raw: Raw) -> list[Problem]:
    """All contradictions between rows, located; an empty list where there are none."""
    return [
        *_sections(description, raw),
        *_readings(description, raw),
        *_tanks(description, raw),
        *_cg(description, raw),
        *_limits(description, raw),
        *_parts(description, raw),
    ]


def _at(raw: Raw, table: str, index: int, field: str, what: str, hint: str) -> Problem:
    file, line = raw.line(table, index, field)
    return Problem(file, line, f"{table} {raw.row_id(table, index)}".strip(), what, "", "", hint)


def _sections(description: Description, raw: Raw) -> Iterator[Problem]:
    count = Counter(section.bay for section in description.section)
    stations: set[tuple[str, float]] = set()
    for index, section in enumerate(description.section):
        if (section.bay, section.x_mm) in stations:
            yield _at(
                raw,
                "section",
                index,
                "x_mm",
                f"bay {section.bay} already has a section at station {section.x_mm:g}",
                "take one out",
            )
        stations.add((section.bay, section.x_mm))
        whole = (
            section.half_width_mm is not None
            and section.top_mm is not None
            and section.bottom_mm is not None
        )
        if whole == (section.outline_mm is not None):
            yield _at(
                raw,
                "section",
                index,
                "x_mm",
                "give half_width_mm, top_mm and bottom_mm, or outline_mm",
                "use one of the two ways",
            )
        elif whole and section.bottom_mm >= section.top_mm:  # type: ignore[operator]
            yield _at(
                raw, "section", index, "bottom_mm", "bottom_mm is not below top_mm", "swap them"
            )
    for index, bay in enumerate(description.bay):
        if count[bay.id] < 2:
            yield _at(
                raw,
                "bay",
                index,
                "id",
                f"bay {bay.id} has {count[bay.id]} of the two or more sections that it needs",
                f'add [[section]] rows with bay = "{bay.id}"',
            )


def _readings(description: Description, raw: Raw) -> Iterator[Problem]:
    for index, reading in enumerate(description.reading):
        if (reading.under is None) == (reading.at_mm is None):
            yield _at(
                raw,
                "reading",
                index,
                "reading_g",
                "say where the scale stood: under = a leg, or at_mm",
                "use one of the two ways",
            )
    count = Counter(reading.weighing for reading in description.reading)
    for index, weighing in enumerate(description.weighing):
        if weighing.method == "scales" and not 2 <= count[weighing.id] <= 3:
            yield _at(
                raw,
                "weighing",
                index,
                "id",
                f"{count[weighing.id]} readings belong to this weighing; "
                "two or three scales are needed",
                "add [[reading]] rows",
            )
        if weighing.method == "stand" and (weighing.stand_x_mm is None or weighing.tips is None):
            yield _at(
                raw,
                "weighing",
                index,
                "method",
                "on a stand, give stand_x_mm and tips",
                'tips = "nose", "tail" or "level"',
            )


def _tanks(description: Description, raw: Raw) -> Iterator[Problem]:
    sizes = {item.id: item for item in description.item}
    for index, tank in enumerate(description.tank):
        if tank.unusable_ml > tank.capacity_ml:
            yield _at(
                raw, "tank", index, "unusable_ml", "more fuel is unusable than the tank holds", ""
            )
        if tank.inside_mm is not None and sizes[tank.item] is not None:
            volume_ml = tank.inside_mm[0] * tank.inside_mm[1] * tank.inside_mm[2] / 1000.0
            if volume_ml * FUEL_ROOM < tank.capacity_ml:
                yield _at(
                    raw,
                    "tank",
                    index,
                    "inside_mm",
                    f"a box of this size holds {volume_ml:.0f} ml, less than capacity_ml",
                    "",
                )
    if description.tank and description.fuel is None:
        yield _at(
            raw,
            "tank",
            0,
            "id",
            "there are tanks but no [fuel] with density_kg_m3",
            "add [fuel] and density_kg_m3",
        )


def _cg(description: Description, raw: Raw) -> Iterator[Problem]:
    table = description.aeroplane
    for field, state in (("cg_range_mm", "cg_range_state"), ("cg_target_mm", "cg_target_state")):
        if getattr(table, field) is not None and getattr(table, state) is None:
            yield _at(
                raw,
                "aeroplane",
                -1,
                field,
                f"{field} belongs to one loading state: which?",
                f'add {state} = "…", the id of a [[state]]',
            )
        if getattr(table, field) is not None and description.cg_mark is None:
            yield _at(
                raw,
                "aeroplane",
                -1,
                field,
                f"{field} is measured from a mark that is not described",
                "add [cg_mark] with name and at_mm: a point that can be touched",
            )


def _limits(description: Description, raw: Raw) -> Iterator[Problem]:
    for index, limit in enumerate(description.limit):
        if limit.id not in BY_ID:
            near = nearest(limit.id, BY_ID)
            yield _at(
                raw,
                "limit",
                index,
                "id",
                f"there is no limit {limit.id}",
                f"did you mean {near}?" if near else f"one of {listed(sorted(BY_ID), 40)}",
            )
        elif limit.low is None and limit.high is None:
            yield _at(
                raw,
                "limit",
                index,
                "id",
                f"limit {limit.id} sets neither low nor high",
                "give one of them",
            )


def _parts(description: Description, raw: Raw) -> Iterator[Problem]:
    """Parts that cannot be made whole, each said once, at the part's row or where it is named."""
    catalogue = Catalogue(description.part, description.port)
    own = {part.id: index for index, part in enumerate(description.part)}
    named = [("part", index, part.id, "extends") for index, part in enumerate(description.part)]
    named += [("item", index, item.part, "part") for index, item in enumerate(description.item)]
    named += [
        ("on_hand", index, hand.part, "part") for index, hand in enumerate(description.on_hand)
    ]
    said: set[str] = set()
    for table, index, part_id, field in named:
        if part_id in said or (table != "part" and part_id in own):
            continue
        try:
            catalogue.resolve(part_id)
        except PartError as error:
            said.add(part_id)
            yield _at(
                raw, table, index, field, str(error), "see `hardstand parts` for what there is"
            )
