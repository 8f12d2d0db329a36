"""The aeroplane's file that `hardstand new` writes: what is known, and how to go on."""

from __future__ import annotations

from string import Template

_TEXT = Template("""\
# $plain_name. What stands here is what you intend; the program computes the rest and never writes
# in this file without your order. `hardstand check` says what is still missing.
#
# A turbine, kerosene, lithium packs, high-current leads, closing doors and a model in flight can
# burn, cut and kill. The manuals, national law, the club's rules and an inspection come first.
#
# Axes: x aft from the datum (a point that you can touch, such as the nose tip), y to the right,
# z up; millimetres. A number may also be text with a unit: mass_g = "14.5 oz".
# A tolerance (mass_tol_g, at_tol_mm) is the half-width that holds 95 of 100 cases; without one the
# usual one of that kind of thing is taken, and named in the result.
# `hardstand schema` prints every table and field, for your editor.

format = 1

[aeroplane]
name = $name
$span
$length
# The designer's CG range, aft of the CG mark, and the loading state that it is meant in:
# cg_range_mm = [243, 260]
# cg_range_state = "empty"

$mark

# ---- loading states ------------------------------------------------------------------------------

[[state]]
id = "empty"
name = "gear down, main tanks empty"
gear = "down"
fuel_pct = 0

[[state]]
id = "take-off"
name = "gear down, tanks full"
gear = "down"
fuel_pct = 100

# ---- airframe: weigh each piece by itself, and balance it to find its own mass centre -------------

# [[mass]]
# id = "wing-left"
# mass_g = 1180
# mass_tol_g = 5
# at_mm = [912, -420, 35]

# ---- trays and what stands on them ----------------------------------------------------------------

# [[tray]]
# id = "front-tray"
# outline_mm = [[210, -60], [480, -78], [480, 78], [210, 60]]
# top_z_mm = -18

# [[item]]
# id = "receiver-left"
# part = "receiver-12-channel"    # search with `hardstand parts receiver`
# on = "front-tray"
# at_mm = [260, -34]              # x, y of the middle of its base
# turn_deg = 90

# ---- planform, for the neutral point and the static margin ----------------------------------------

# [[panel]]
# id = "wing"
# surface = "wing"
# root_mm = [980, 0, -25]         # leading edge at the root and at the tip
# tip_mm = [1500, 1000, -25]
# root_chord_mm = 560
# tip_chord_mm = 200
""")


def beginning(name: str, span_mm: float | None = None, length_mm: float | None = None,
              mark: str = "", mark_mm: tuple[float, float, float] | None = None) -> str:
    """The text of a new aeroplane.toml; what is not known stands in it as a comment.

    `mark` is the CG mark in words and `mark_mm` its place x, y, z in mm.

    >>> import tomllib
    >>> tomllib.loads(beginning("Heron", 1800.0))["aeroplane"]
    {'name': 'Heron', 'span_mm': 1800}
    """
    return _TEXT.substitute(
        plain_name=" ".join(name.split()), name=quoted(name),
        span=_line("span_mm", span_mm, "2000"),
        length=_line("length_mm", length_mm, "2325", "  # nose tip to nozzle lip"),
        mark=_mark(mark, mark_mm))


def _line(field: str, value: float | None, example: str, remark: str = "") -> str:
    return f"# {field} = {example}{remark}" if value is None else f"{field} = {value:.12g}"


def _mark(mark: str, mark_mm: tuple[float, float, float] | None) -> str:
    words = mark or "wing leading edge at the fuselage side"
    said = "# The CG mark: a point that you can touch, from which the CG is measured aft.\n"
    if mark_mm is None:
        return f"{said}# [cg_mark]\n# name = {quoted(words)}\n# at_mm = [1045, 125, -25]"
    place = ", ".join(f"{one:.12g}" for one in mark_mm)
    return f"{said}[cg_mark]\nname = {quoted(words)}\nat_mm = [{place}]"


def quoted(text: str) -> str:
    r"""A text as TOML writes it, on one line.

    >>> quoted('the "Heron"\n')
    '"the \\"Heron\\"\\n"'
    """
    escapes = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}
    signs = (escapes.get(one) or (one if one.isprintable() or one == " " else f"\\u{ord(one):04x}")
             for one in text if not 0xD800 <= ord(one) <= 0xDFFF and ord(one) <= 0xFFFF)
    return f'"{"".join(signs)}"'
