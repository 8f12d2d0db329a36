"""Findings as sentences: what is meant by a subject, an input, a figure against its limit, a move."""

from __future__ import annotations

from collections.abc import Mapping

from hardstand.changes import parse_address
from hardstand.engines.fit.model import Check, Move
from hardstand.engines.fit.stands import OF_PIECES, STANDS, WHY
from hardstand.figures import Figure
from hardstand.findings import Limit
from hardstand.standards.units import show

_SIZES = ("length", "width", "height")
_WAYS = ("how far aft {name} stands (x)", "how far to the side {name} stands (y)",
         "how high {name} stands (z)")  # fmt: skip


def subject_words(subject: str, names: Mapping[str, str]) -> str:
    """A figure's subject for people.

    >>> subject_words("rx.front", {"rx": "Receiver 1"}), subject_words("pipe.hot", {})
    ('the room of the plugs at the front of Receiver 1', 'the hot part of pipe')
    """
    row, _, part = subject.partition(".")
    name = names.get(row, row)
    if not part:
        return name
    return (
        f"the hot part of {name}"
        if part == "hot"
        else f"the room of the plugs at the {part} of {name}"
    )


def input_words(address: str, names: Mapping[str, str]) -> str:
    """An input's address as something to measure.

    >>> input_words("item.rx.size_mm.z", {"rx": "Receiver 1"})
    'the height of Receiver 1'
    >>> input_words("section.s-400.tol_mm", {})
    'the inside of the skin at s-400'
    """
    where = parse_address(address)
    name = names.get(where.id or "", where.id or "")
    axis = "xyz".find(where.index or "-")
    if where.field == "size_mm" and axis >= 0:
        return f"the {_SIZES[axis]} of {name}"
    if where.field == "at_mm" and axis >= 0:
        return _WAYS[axis].format(name=name)
    if where.kind == "section":
        return f"the inside of the skin at {name}"
    return {
        "awg": f"how thick the wires of {name} are",
        "diameter_mm": f"how wide {name} is",
        "width_mm": f"how wide {name} is",
        "top_z_mm": f"the height of {name}",
        "outline_mm": f"the edge of {name}",
        "tol_mm": f"the surface of {name}",
        "tip_mm": f"where the tip of {name} is",
        "direction": f"the direction of {name}",
        "misalignment_deg": f"how far {name} is off the axes",
    }.get(where.field, address)


def sentence(check: Check, figure: Figure, limit: Limit, names: Mapping[str, str]) -> str:
    """What a check found: the figure, the limit, and why it matters; without a full stop."""
    return f"{_stands(check, figure, names)} ({_bound(limit)}): {WHY[check.slug]}"


def _bound(limit: Limit) -> str:
    sign = "°" if limit.unit == "deg" else f" {limit.unit}"
    if limit.low is None:
        return f"at most {limit.high:g}{sign}"
    return f"needs {limit.low:g}{sign}" if limit.low else f"limit 0{sign}"


def _stands(check: Check, figure: Figure, names: Mapping[str, str]) -> str:
    figure_name, _, subject = figure.address.removeprefix("fit.").partition("@")
    kind = figure_name if figure_name in STANDS else check.slug
    if check.slug in ("bay-gap", "plug-room") and check.about[-1] not in names:
        kind = "in-bay"
    kind = kind if kind in STANDS else "apart"
    subjects = tuple(subject.split("+")) if kind in OF_PIECES else check.about
    ways = STANDS[kind]
    return (
        ways[-1 if figure.value < 0.0 else 0]
        .format(
            name=subject_words(subjects[0], names),
            other=subject_words(subjects[-1], names),
            value=show(abs(figure.value), figure.unit, figure.u),
            word=check.words[0] if check.words else "",
            at="" if check.station_mm is None else f" at station {check.station_mm:.0f} mm",
        )
        .replace("station -", "station −")
    )


def decides(figure: Figure, names: Mapping[str, str]) -> str:
    """That a figure is too near its limit to tell, and the measurement that would tell most."""
    text = "The limit lies within the tolerance"
    if not figure.parents:
        return f"{text}."
    return (
        f"{text}: to decide, measure {input_words(figure.parents[0][0], names)}, which counts most."
    )


def move_words(move: Move, names: Mapping[str, str]) -> tuple[str, tuple[str, ...]]:
    """A move as an instruction, and what is to be said of it."""
    x, y = move.by_mm
    ways = [f"{abs(x):g} mm {'aft' if x > 0 else 'forward'}"] if x else []
    ways += [f"{abs(y):g} mm to {'starboard' if y > 0 else 'port'}"] if y else []
    name = names.get(move.item, move.item)
    text = f"Move {name} {' and '.join(ways)}."
    if move.nearest is None:
        left = "nothing else is near it"
    elif move.tightest_mm >= 0.0:
        left = f"{move.nearest} is then its tightest neighbour, {move.tightest_mm:.1f} mm beyond limit and tolerance"
    else:
        left = f"{move.nearest} stays too near it by {-move.tightest_mm:.1f} mm, as now"
    return text, (left,)
