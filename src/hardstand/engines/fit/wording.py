"""Findings as sentences: what is meant by a subject, an input, a figure against its limit."""

from __future__ import annotations

from collections.abc import Mapping

from hardstand.changes import parse_address
from hardstand.engines.fit.model import Check, Move
from hardstand.figures import Figure
from hardstand.findings import Limit
from hardstand.standards.units import show

WHY = {
    "box-gap": "boxes that touch wear through",
    "plug-room": "a plug must go home and its lead must not be bent at the plug",
    "structure-gap": "structure flexes in a hard landing",
    "tub-gap": "it would rest on the box",
    "bay-gap": "the skin flexes, and what is too large does not go in",
    "moving-gap": "what moves takes along what it catches",
    "hot-gap": "plastic softens, insulation melts, cells burn",
    "fuel-gap": "a weeping tank beside a connector is a fire",
    "hole-gap": "an opening under a box passes no lead",
    "tray-edge": "what hangs over is held by its tape alone",
    "height": "it does not go in",
    "gyro-alignment": "off its axes it takes one rotation for another",
    "gyro-centreline": "a wish only; a rate sensor does not mind",
    "gyro-cg": "away from the CG it feels every turn as a pull",
    "gyro-engine": "shaking fools a gyro",
    "aerial-apart": "one shadow should not blind both receivers",
    "aerial-angle": "each is deaf along its own line",
    "aerial-engine": "brushes, ignition and starter make noise",
    "aerial-controller": "its processor and pump driver make noise",
    "aerial-carbon": "it shadows and detunes the aerial",
    "aerial-lead": "high current makes noise; the straight line from port to port stands for its route",
    "pack-slides-out": "a pack must come out with all else in place",
    "pack-opening": "a pack must come out of its hatch",
    "reach": "it must be reached in a hurry",
    "view": "a lamp that cannot be seen warns nobody",
}
# How a figure stands, where it is not simply two things apart: (not negative, negative).
_STANDS = {
    "tray-edge": (
        "{name} is within the edge of {other} by {value}",
        "{name} hangs over the edge of {other} by {value}",
    ),
    "height": (
        "{name} is {value} under what is free above {other}",
        "{name} is {value} higher than what is free above {other}",
    ),
    "gyro-alignment": ("{name} is off by {value} in {word}",),
    "gyro-centreline": ("{name} is {value} off the centreline",),
    "gyro-cg": ("{name} is {value} from the CG in {word}",),
    "aerial-angle": ("the aerials {name} and {other} stand at {value}",),
    "pack-slides-out": (
        "on its way out through {word} {name} passes {other} at {value}",
        "on its way out through {word} {name} would run into {other} by {value}",
    ),
    "pack-opening": ("{name} is {value} within {other}", "{name} is {value} outside {other}"),
    "reach": (
        "the middle of {name} is {value} within {other}",
        "the middle of {name} is {value} outside {other}",
    ),
    "view": (
        "{other} is beside the line of sight to {name} by {value}",
        "{other} covers the line of sight to {name} by {value}",
    ),
    "view-opening": (
        "the face of {name} is {value} within {other}",
        "the face of {name} is {value} outside {other}",
    ),
    "in-bay": ("{name} is {value} within the skin{at}", "{name} is {value} outside the skin{at}"),
    "apart": (
        "{name} and {other} are {value} apart{at}",
        "{name} and {other} overlap by {value}{at}",
    ),
}


def subject_words(subject: str, names: Mapping[str, str]) -> str:
    """A figure's subject for people.

    >>> subject_words("rx.front", {"rx": "Receiver 1"}), subject_words("pipe.hot", {})
    ('the plugs at the front of Receiver 1', 'the hot part of pipe')
    """
    row, _, part = subject.partition(".")
    name = names.get(row, row)
    if not part:
        return name
    return f"the hot part of {name}" if part == "hot" else f"the plugs at the {part} of {name}"


def input_words(address: str, names: Mapping[str, str]) -> str:
    """An input's address as something to measure.

    >>> input_words("item.rx.size_mm.z", {"rx": "Receiver 1"})
    'the height of Receiver 1'
    """
    where = parse_address(address)
    name = names.get(where.id or "", where.id or "")
    if where.field == "size_mm" and where.index is not None:
        return f"the {('length', 'width', 'height')['xyz'.index(where.index)]} of {name}"
    return {
        "at_mm": f"where {name} stands along {where.index}",
        "top_z_mm": f"the height of {name}",
        "outline_mm": f"the edge of {name}",
        "tol_mm": f"the surface of {name}",
        "inside_mm": f"the inside of {name}",
        "tip_mm": f"the tip of aerial {name}",
        "direction": f"the direction of aerial {name}",
        "misalignment_deg": f"how far {name} is off the axes",
    }.get(where.field, address)


def sentence(check: Check, figure: Figure, limit: Limit, names: Mapping[str, str]) -> str:
    """What a check found: the figure, the limit, and why it matters; without a full stop."""
    stands = _stands(check, figure, names)
    bound = limit.low if limit.low is not None else limit.high
    sign = "°" if limit.unit == "deg" else f" {limit.unit}"
    needs = "needs" if limit.low is not None else "at most"
    return f"{stands} ({needs} {bound:g}{sign}): {WHY[check.slug]}"


def _stands(check: Check, figure: Figure, names: Mapping[str, str]) -> str:
    figure_name, _, subject = figure.address.removeprefix("fit.").partition("@")
    kind = figure_name if figure_name in _STANDS else check.slug
    subjects = check.about
    if kind not in _STANDS:
        subjects = tuple(subject.split("+"))
        in_bay = check.slug in ("bay-gap", "plug-room") and check.about[-1] not in names
        kind = "in-bay" if in_bay else "apart"
    ways = _STANDS[kind]
    return ways[-1 if figure.value < 0.0 else 0].format(
        name=subject_words(subjects[0], names),
        other=subject_words(subjects[-1], names),
        value=show(abs(figure.value), figure.unit, figure.u),
        word=check.words[0] if check.words else "",
        at=f" at station {check.words[0]}" if check.words else "",
    )


def move_words(move: Move, names: Mapping[str, str]) -> tuple[str, str]:
    """A move as an instruction, and what it costs elsewhere."""
    x, y = move.by_mm
    ways = [f"{abs(x):g} mm {'aft' if x > 0 else 'forward'}"] if x else []
    ways += [f"{abs(y):g} mm to {'starboard' if y > 0 else 'port'}"] if y else []
    text = f"Move {names.get(move.item, move.item)} {' and '.join(ways)}."
    if move.tightest_mm >= 0.0:
        left = f"{move.tightest_mm:.1f} mm beyond limit and U"
    else:
        left = f"still {-move.tightest_mm:.1f} mm short, as now"
    return text, f"tightest about it becomes {move.nearest}, {left}"
