"""Which plugs a channel commands, and which of them are not to be lost together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from hardstand.description.network import Channel
from hardstand.engines.harness.planning.plugged import Plugged
from hardstand.engines.harness.planning.problem import FUNCTION, PAIR, WHOLE_AXIS, Group

AXES = ("pitch", "roll")
STOPS = frozenset(("throttle", "engine-aux"))
SURFACES = frozenset(("pitch", "roll", "yaw", "flaps", "speed-brake"))


def commanded(channels: Iterable[Channel], plugs: Sequence[Plugged]) -> dict[str, tuple[int, ...]]:
    """The plugs of each channel: those that reach what it drives, of these those it comes out at.

    A channel that says nothing of what it drives, or drives what no plug reaches, has those at its
    outputs. Where several channels drive one item through several plugs and do not come out there,
    the plugs are shared out in the order of the channels and of the item's ports: a guess (`guessed`).
    """
    found: dict[str, tuple[int, ...]] = {}
    rows = list(channels)
    open_ones: dict[str, list[int]] = {}
    for one in rows:
        there = [p for p, plug in enumerate(plugs) if plug.end in one.at]
        drives = [p for p, plug in enumerate(plugs) if set(plug.items) & set(one.drives)]
        both = [p for p in drives if p in there]
        if both and {item for p in both for item in plugs[p].items} >= set(one.drives):
            found[one.id] = tuple(both)
        elif drives:
            open_ones[one.id] = drives
        else:
            found[one.id] = tuple(there)
    taken = {p for mine in found.values() for p in mine}
    for name, drives in open_ones.items():
        rivals = [other for other, theirs in open_ones.items() if other != name and {*theirs} & {*drives}]
        free = [p for p in drives if p not in taken] or drives
        found[name] = tuple(free[:1] if rivals else free)
        taken |= set(found[name])
    return {one.id: found[one.id] for one in rows}


def guessed(channels: Sequence[Channel], has: Mapping[str, tuple[int, ...]], plugs: Sequence[Plugged]) -> list[str]:
    """What was guessed, in words: which of several plugs of one item a channel commands."""
    found = []
    for one in channels:
        mine = [plugs[p] for p in has[one.id]]
        others = any(set(one.drives) & set(other.drives) for other in channels if other is not one)
        if others and mine and not any(plug.end in one.at for plug in mine):
            found.append(f"{one.id} commands {', '.join(plug.far[0].end for plug in mine)}")
    return found


def groups(
    channels: Sequence[Channel], has: Mapping[str, tuple[int, ...]]
) -> tuple[Group, ...]:
    """Whole axes, halves of a pair, and every function, as far as plugs move them."""
    found: list[Group] = []
    functions = dict.fromkeys(name for one in channels for name in one.function)
    for name in sorted(functions, key=lambda one: one not in AXES):
        plugs = _plugs((one for one in channels if name in one.function), has)
        if plugs:
            axis = name in AXES
            words = f"{name} altogether" if axis and len(plugs) > 1 else name
            found.append(Group(words, WHOLE_AXIS if axis else FUNCTION, plugs))
    alike: dict[tuple[str, ...], list[Channel]] = {}
    for one in channels:
        if SURFACES & set(one.function):
            alike.setdefault(tuple(sorted(one.function)), []).append(one)
    for rows in alike.values():
        sides = [one for one in rows if one.side in ("left", "right")]
        if len({one.side for one in sides}) > 1:
            found += _halves(" and ".join(one.id for one in sides), _plugs(sides, has))
        for one in rows:
            if one not in sides:
                found += _halves(f"all servos of {one.id}", _plugs([one], has))
    return tuple(found)


def stops(channels: Sequence[Channel], has: Mapping[str, tuple[int, ...]]) -> tuple[Group, ...]:
    """The ways to stop an engine, where one unit is told by several."""
    by: dict[str, list[Channel]] = {}
    for one in channels:
        for item in one.drives if STOPS & set(one.function) else ():
            by.setdefault(item, []).append(one)
    found = [(item, _plugs(rows, has)) for item, rows in by.items()]
    return tuple(Group(f"every way to stop {item}", PAIR, plugs) for item, plugs in found if len(plugs) > 1)


def _halves(words: str, plugs: tuple[int, ...]) -> list[Group]:
    both = "" if words.startswith("all") else "both " if words.count(" and ") == 1 else "all of "
    return [Group(both + words, PAIR, plugs)] if len(plugs) > 1 else []


def _plugs(rows: Iterable[Channel], has: Mapping[str, tuple[int, ...]]) -> tuple[int, ...]:
    return tuple(sorted({p for one in rows for p in has.get(one.id, ())}))


def numbers(channels: Sequence[Channel]) -> dict[str, int]:
    """A number for every channel that has none of its own: the lowest that are free, in their order.

    The first channel of a number keeps it, so no fewer could be changed. Where no channel has a
    number they are not wanted.

    >>> rows = [{"id": one, "function": ["other"], "number": n} for one, n in zip("abc", (2, 2, 4))]
    >>> numbers([Channel.model_validate(one) for one in [*rows, {"id": "d", "function": ["other"]}]])
    {'b': 1, 'd': 3}
    """
    if all(one.number is None for one in channels):
        return {}
    used: set[int] = set()
    without: list[str] = []
    for one in channels:
        if one.number is None or one.number in used:
            without.append(one.id)
        else:
            used.add(one.number)
    free = (number for number in range(1, 65) if number not in used)
    return dict(zip(without, free, strict=False))
