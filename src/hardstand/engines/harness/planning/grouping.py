"""Which plugs a channel commands, and which of them are not to be lost together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from hardstand.description.network import Channel
from hardstand.engines.harness.planning.plugged import Plugged
from hardstand.engines.harness.planning.problem import FUNCTION, PAIR, WHOLE_AXIS, Group

AXES = ("pitch", "roll")
SURFACES = frozenset(("pitch", "roll", "yaw", "flaps", "speed-brake"))


def commanded(channels: Iterable[Channel], plugs: Sequence[Plugged]) -> dict[str, tuple[int, ...]]:
    """The plugs of each channel: those that reach what it drives, of these those it comes out at.

    A channel that says nothing of what it drives, or drives what no plug reaches, has those at its
    outputs.
    """
    found: dict[str, tuple[int, ...]] = {}
    for one in channels:
        there = [p for p, plug in enumerate(plugs) if plug.end in one.at]
        drives = [p for p, plug in enumerate(plugs) if set(plug.items) & set(one.drives)]
        both = [p for p in drives if p in there]
        whole = {item for p in both for item in plugs[p].items} >= set(one.drives)
        found[one.id] = tuple(both if both and whole else drives or there)
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


def _halves(words: str, plugs: tuple[int, ...]) -> list[Group]:
    both = "" if words.startswith("all") else "both " if words.count(" and ") == 1 else "all of "
    return [Group(both + words, PAIR, plugs)] if len(plugs) > 1 else []


def _plugs(rows: Iterable[Channel], has: Mapping[str, tuple[int, ...]]) -> tuple[int, ...]:
    return tuple(sorted({p for one in rows for p in has.get(one.id, ())}))


def numbers(channels: Sequence[Channel]) -> dict[str, int]:
    """A number for every channel that has none of its own: the lowest that are free, in their order.

    The first channel of a number keeps it, so no fewer could be changed.

    >>> rows = [{"id": one, "function": ["other"], "number": n} for one, n in zip("abc", (2, 2, 4))]
    >>> numbers([Channel.model_validate(one) for one in [*rows, {"id": "d", "function": ["other"]}]])
    {'b': 1, 'd': 3}
    """
    used: set[int] = set()
    without: list[str] = []
    for one in channels:
        if one.number is None or one.number in used:
            without.append(one.id)
        else:
            used.add(one.number)
    free = (number for number in range(1, 65) if number not in used)
    return dict(zip(without, free, strict=False))
