"""Everything that makes distance cost something, as pulls between two points."""

from __future__ import annotations

from dataclasses import dataclass

from hardstand.engines.fit.layout.problem import ItemPort, Problem


@dataclass(frozen=True, slots=True)
class Pull:
    """Cost that grows with the distance of two points along the axes.

    One point is `port` of item number `item`; the other `other_port` of item number `other`, or,
    where `other` is -1, `twice` in half millimetres. `weight`: points per half millimetre along
    x, y and z.
    """

    item: int
    port: str
    other: int
    other_port: str
    twice: tuple[int, int, int]
    weight: tuple[int, int, int]


def pulls(problem: Problem) -> tuple[Pull, ...]:
    """The pulls of leads and of wishes to be centred. Raises KeyError for an unknown item or port."""
    numbers = {item.id: i for i, item in enumerate(problem.items)}
    known = {item.id: {"", *(port.id for port in item.ports)} for item in problem.items}
    found = []
    for lead in problem.leads:
        weight = (lead.weight,) * 3
        _known(lead.start, known)
        if isinstance(lead.end, ItemPort):
            _known(lead.end, known)
            other, port, twice = numbers[lead.end.item], lead.end.port, (0, 0, 0)
        else:
            x, y, z = (round(2 * value) for value in lead.end.at_mm)
            other, port, twice = -1, "", (x, y, z)
        found.append(Pull(numbers[lead.start.item], lead.start.port, other, port, twice, weight))
    for wish in problem.centred:
        twice = (0, round(2 * wish.y_mm), 0)
        found.append(Pull(numbers[wish.item], "", -1, "", twice, (0, wish.weight, 0)))
    return tuple(found)


def _known(end: ItemPort, known: dict[str, set[str]]) -> None:
    if end.port not in known[end.item]:
        raise KeyError(f"{end.item}.{end.port}")
