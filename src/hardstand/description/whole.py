"""What only the whole description can show: contradictions between rows that are each well formed.

Each check names the tables it looks at and is left out where one of them is not whole, so that no
fault is told of twice and none is hidden by another.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from math import pi

from hardstand.description.catalogue import Catalogue, PartError
from hardstand.description.model import Description
from hardstand.description.problems import Problem, listed, nearest
from hardstand.description.raw import Raw
from hardstand.description.whole_electrics import branches, duties, joint_names, pin_counts
from hardstand.standards.limits import BY_ID

FUEL_ROOM = 1.0 + 1e-9
Told = tuple[str, int, str, str, str]  # table, row, field, what is wrong, what to do
Check = Callable[[Description], Iterator[Told]]


def whole_problems(
    description: Description,
    raw: Raw,
    faulty: AbstractSet[str],
    numbers: Mapping[str, Sequence[int]],
) -> Iterator[Problem]:
    """All contradictions between rows, located. `faulty` are the tables that are not whole.

    `numbers` holds, by table, the place among the raw rows of each row of the description.
    """
    for tables, check in _CHECKS:
        if not faulty & set(tables):
            for table, number, field, what, hint in check(description):
                index = numbers[table][number] if number >= 0 else -1
                file, line = raw.line(table, index, field)
                row_id = raw.row_id(table, index)
                yield Problem(file, line, f"{table} {row_id}".strip(), what, "", "", hint,
                              ".".join(part for part in (table, row_id, field) if part))


def _sections(description: Description) -> Iterator[Told]:
    count = Counter(section.bay for section in description.section)
    stations: set[tuple[str, float]] = set()
    for index, section in enumerate(description.section):
        if (section.bay, section.x_mm) in stations:
            yield ("section", index, "x_mm",
                   f"bay {section.bay} already has a section at station {section.x_mm:g}",
                   "take one out")
        stations.add((section.bay, section.x_mm))
    for index, bay in enumerate(description.bay):
        if count[bay.id] < 2:
            yield ("bay", index, "id",
                   f"bay {bay.id} has {count[bay.id]} of the two or more sections that it needs",
                   f'add [[section]] rows with bay = "{bay.id}"')


def _weighings(description: Description) -> Iterator[Told]:
    count = Counter(reading.weighing for reading in description.reading)
    for index, weighing in enumerate(description.weighing):
        found = count[weighing.id]
        if weighing.method == "scales" and not 2 <= found <= 3:
            belong = "1 reading belongs" if found == 1 else f"{found} readings belong"
            yield ("weighing", index, "id",
                   f"{belong} to this weighing; two or three scales are needed",
                   f'give 2 or 3 [[reading]] rows with weighing = "{weighing.id}"')


def _tanks(description: Description) -> Iterator[Told]:
    catalogue = Catalogue(description.part, description.port)
    items = {item.id: item for item in description.item}
    for index, tank in enumerate(description.tank):
        item = items[tank.item]
        try:
            part = catalogue.resolve(item.part).part
        except PartError:
            continue  # told of at the item
        size, field = tank.inside_mm, "inside_mm"
        if size is None:
            size, field = item.size_mm or part.size_mm or (0.0, 0.0, 0.0), "capacity_ml"
        round_share = 1.0 if part.shape == "box" else pi / 4.0
        holds_ml = size[0] * size[1] * size[2] / 1000.0 * round_share
        if holds_ml * FUEL_ROOM < tank.capacity_ml:
            shape = "box" if part.shape == "box" else "cylinder"
            whose = "inside_mm" if tank.inside_mm else f"the size of {item.id}"
            yield ("tank", index, field,
                   f"a {shape} of {whose} holds {holds_ml:.0f} ml, less than capacity_ml",
                   "measure both again")
    if description.tank and description.fuel is None:
        yield ("tank", 0, "id", "there are tanks but no [fuel] with density_kg_m3",
               "add [fuel] and density_kg_m3 = 800 or what a litre of yours weighs")


def _one_tank_each(description: Description) -> Iterator[Told]:
    seen: set[str] = set()
    for index, tank in enumerate(description.tank):
        if tank.item in seen:
            yield "tank", index, "item", f"item {tank.item} already has a tank", "one tank an item"
        seen.add(tank.item)


def _cg(description: Description) -> Iterator[Told]:
    table = description.aeroplane
    for field, state in (("cg_range_mm", "cg_range_state"), ("cg_target_mm", "cg_target_state")):
        if getattr(table, field) is None:
            continue
        if getattr(table, state) is None:
            yield ("aeroplane", -1, field, f"{field} belongs to one loading state: which?",
                   f'add {state} = "…", the id of a [[state]]')
        if description.cg_mark is None:
            yield ("aeroplane", -1, field,
                   f"{field} is measured from a mark that is not described",
                   "add [cg_mark] with name and at_mm: a point that can be touched")


def _tailless(description: Description) -> Iterator[Told]:
    behind = {"tail", "canard"} & {panel.surface for panel in description.panel}
    if description.stability is not None and description.stability.tailless and behind:
        yield ("stability", -1, "tailless", f"it is called tailless, and there are panels of a {min(behind)}",
               "take tailless out, or the panels")


def _limits(description: Description) -> Iterator[Told]:
    for index, limit in enumerate(description.limit):
        default = BY_ID.get(limit.id)
        if default is None:
            near = nearest(limit.id, BY_ID)
            yield ("limit", index, "id", f"there is no limit {limit.id}",
                   f"did you mean {near}?" if near else f"one of {listed(sorted(BY_ID), 40)}")
            continue
        low = default.low if limit.low is None else limit.low
        high = default.high if limit.high is None else limit.high
        if low is not None and high is not None and low > high:
            field, other = ("low", f"high is {high:g}") if limit.high is None else (
                "high", f"low is {low:g}")  # fmt: skip
            yield ("limit", index, field,
                   f"limit {limit.id}: low {low:g} would be above high {high:g}",
                   f"by default {other}; give both")


def _parts(description: Description) -> Iterator[Told]:
    """Parts that cannot be made whole, each said once, at the part's row or where it is named."""
    catalogue = Catalogue(description.part, description.port)
    own = {part.id for part in description.part}
    named = [("part", index, part.id, "extends") for index, part in enumerate(description.part)]
    named += [("item", index, item.part, "part") for index, item in enumerate(description.item)]
    named += [
        ("on_hand", index, hand.part, "part") for index, hand in enumerate(description.on_hand)
    ]
    said: set[str] = set()
    for table, index, part_id, field in named:
        if part_id in said or (table != "part" and part_id in own):
            continue
        said.add(part_id)
        try:
            names = Counter(
                name for port in catalogue.resolve(part_id).ports for name in port.names())
        except PartError as error:
            yield table, index, field, str(error), "see `hardstand parts` for what there is"
            continue
        twice = [name for name, count in names.items() if count > 1]
        if twice:
            yield (table, index, "id" if table == "part" else field,
                   f"part {part_id} has more than one port {listed(twice)}",
                   "a row of ports with count = 2 is named id-1 and id-2")


_CHECKS: tuple[tuple[tuple[str, ...], Check], ...] = (
    (("bay", "section"), _sections),
    (("weighing", "reading"), _weighings),
    (("tank", "item", "part", "port", "fuel"), _tanks),
    (("tank",), _one_tank_each),
    (("aeroplane", "cg_mark"), _cg),
    (("stability", "panel"), _tailless),
    ((), _limits),  # each row by itself
    (("part", "port", "item", "on_hand"), _parts),
    (("item", "joint"), joint_names),
    (("lead",), branches),
    (("port",), pin_counts),
    (("phase", "duty"), duties),
)
