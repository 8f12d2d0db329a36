"""Small aeroplanes for tests: complete enough to be balanced, plain enough to be read at a glance."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from functools import cache

from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import Assessment, Memory, assess
from hardstand.description.read import read_texts
from hardstand.engines.balance import STAGE as BALANCE
from hardstand.engines.fuel.stage import STAGE as FUEL
from hardstand.findings import Finding

MEMORY = Memory(3000)  # most aeroplanes of the tests differ in one row: the rest is worked out once
SMALL = """
format = 1
[aeroplane]
name = "Small"
cg_range_mm = [135, 175]
cg_range_state = "empty"
cg_target_mm = [148, 164]
cg_target_state = "empty"
[cg_mark]
name = "leading edge at the fuselage side"
at_mm = [800, 100, 0]
[ground]
tail_strike_mm = [1900, 0, -60]
[fuel]
density_kg_m3 = 800
[[panel]]
id = "wing"
surface = "wing"
root_mm = [750, 0, 0]
tip_mm = [1050, 900, 0]
root_chord_mm = 500
tip_chord_mm = 250
[[panel]]
id = "tail"
surface = "tail"
root_mm = [1700, 60, 60]
tip_mm = [1800, 350, 60]
root_chord_mm = 260
tip_chord_mm = 150
[[bay]]
id = "fuselage"
[[section]]
id = "f1"
bay = "fuselage"
x_mm = 0
half_width_mm = 20
bottom_mm = -20
top_mm = 20
[[section]]
id = "f2"
bay = "fuselage"
x_mm = 700
half_width_mm = 90
bottom_mm = -90
top_mm = 90
[[section]]
id = "f3"
bay = "fuselage"
x_mm = 1900
half_width_mm = 50
bottom_mm = -50
top_mm = 50
[[mass]]
id = "body"
mass_g = 6000
at_mm = [990, 0, 0]
[[mass]]
id = "nose"
mass_g = 1000
at_mm = [300, 0, 0]
[[mass]]
id = "tail"
mass_g = 700
at_mm = [1600, 0, 40]
[[item]]
id = "tank-main"
part = "main-tank"
at_mm = [960, 0, 20]
mass_g = 100
[[item]]
id = "gear-nose"
part = "strut"
at_mm = [450, 0, -100]
mass_g = 300
[[item]]
id = "gear-left"
part = "strut"
at_mm = [1120, -250, -100]
mass_g = 400
[[item]]
id = "gear-right"
part = "strut"
at_mm = [1120, 250, -100]
mass_g = 400
[[tank]]
id = "main"
item = "tank-main"
capacity_ml = 1500
inside_mm = [250, 100, 60]
[[leg]]
id = "nose-leg"
item = "gear-nose"
place = "nose"
pivot_mm = [450, 0, -40]
contact_mm = [400, 0, -260]
wheel_radius_mm = 35
wheel_width_mm = 25
moving_g = 200
down_mm = [450, 0, -150]
up_mm = [580, 0, -40]
[[leg]]
id = "left-leg"
item = "gear-left"
place = "left"
pivot_mm = [1120, -250, -30]
contact_mm = [1030, -250, -260]
wheel_radius_mm = 40
wheel_width_mm = 25
moving_g = 250
down_mm = [1120, -250, -150]
up_mm = [1120, -130, -30]
[[leg]]
id = "right-leg"
item = "gear-right"
place = "right"
pivot_mm = [1120, 250, -30]
contact_mm = [1030, 250, -260]
wheel_radius_mm = 40
wheel_width_mm = 25
moving_g = 250
down_mm = [1120, 250, -150]
up_mm = [1120, 130, -30]
[[state]]
id = "empty"
flown = false
[[state]]
id = "full"
gear = "up"
fuel_pct = 100
[[state]]
id = "low"
gear = "up"
fuel_pct = 20
"""
PARTS = """
[[part]]
id = "main-tank"
kind = "tank"
size_mm = [260, 110, 70]
mass_g = 100
[[part]]
id = "strut"
kind = "retract"
size_mm = [80, 30, 120]
mass_g = 300
"""
WEIGHED = """
[[weighing]]
id = "first"
state = "empty"
[[reading]]
id = "r-nose"
weighing = "first"
under = "nose-leg"
reading_g = {nose}
[[reading]]
id = "r-left"
weighing = "first"
under = "left-leg"
reading_g = {left}
[[reading]]
id = "r-right"
weighing = "first"
under = "right-leg"
reading_g = {right}
"""


def texts(main: str = SMALL, measurements: str = "", parts: str = PARTS) -> dict[str, str]:
    """The files of an aeroplane by name."""
    files = {"aeroplane.toml": main, "parts/own.toml": parts}
    return files | ({"measurements.toml": measurements} if measurements else {})


def as_built(
    main: str = SMALL, measurements: str = "", options: Sequence[str] = (), parts: str = PARTS
) -> AsBuilt:
    """The as-built aeroplane of a description's text."""
    return build(read_texts(texts(main, measurements, parts), options).description)


def assessed(
    main: str = SMALL, measurements: str = "", options: Sequence[str] = (), parts: str = PARTS
) -> Assessment:
    """The balance of an aeroplane from its description's text, worked out once for all tests."""
    return _assessed(main, measurements, tuple(options), parts)


@cache
def _assessed(main: str, measurements: str, options: tuple[str, ...], parts: str) -> Assessment:
    return assess(as_built(main, measurements, options, parts), (FUEL, BALANCE), MEMORY)


def of_code(assessment: Assessment, code: str) -> list[Finding]:
    """The findings of one code."""
    return [one for one in assessment.findings if one.code == code]


def swapped(text: str, old: str, new: str) -> str:
    """The text with one exact piece replaced; a piece that is not there is a fault of the test."""
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
    return text.replace(old, new)


def without_rows(text: str, table: str) -> str:
    """The text without any row of an array of tables."""
    return re.sub(rf"\[\[{table}\]\]\n(?:(?!\[).*\n)*", "", text)


def exact(text: str) -> str:
    """The aeroplane with its masses known to 0.5 g and their places to 0.5 mm (half-widths)."""
    text = re.sub(
        r"(\[\[mass\]\]\n(?:(?!\[).*\n)*?mass_g = .*\n)",
        r"\1mass_tol_g = 0.5\nat_tol_mm = 0.5\n",
        text,
    )
    return re.sub(
        r"(\[\[item\]\]\n(?:(?!\[).*\n)*?mass_g = .*\n)",
        r"\1mass_tol_g = 0.5\nstation_tol_mm = 0.5\n",
        text,
    )


def weighed_as(
    mass_g: float,
    cg_mm: Sequence[float],
    *,
    pitch_deg: float = 0.0,
    name: str = "first",
    state: str = "empty",
    tol: str = "reading_tol_g = 0.5",
    stated_deg: float | None = None,
) -> str:
    """A weigh-in of the small aeroplane on its three wheels as its scales would show it.

    Worked out along the floor: x aft and z up of the aeroplane become x cos + z sin, and the wheels
    touch straight under their axles. `stated_deg` is the pitch that is written down.
    """
    turn = math.radians(pitch_deg)

    def along(x_mm: float, z_mm: float) -> float:
        return x_mm * math.cos(turn) + z_mm * math.sin(turn)

    nose, main = along(400.0, -225.0), along(1030.0, -220.0)
    at = along(cg_mm[0], cg_mm[2])
    on_nose = mass_g * (main - at) / (main - nose)
    right = 0.5 * (mass_g - on_nose) + 0.5 * mass_g * cg_mm[1] / 250.0
    loads = {"nose": on_nose, "left": mass_g - on_nose - right, "right": right}
    text = WEIGHED.format(**{leg: f"{load:.6f}" for leg, load in loads.items()})
    pitch = pitch_deg if stated_deg is None else stated_deg
    text = text.replace('"first"', f'"{name}"').replace('"r-', f'"{name}-')
    stated = f'state = "{state}"\npitch_deg = {pitch}\npitch_tol_deg = 0.05\nstation_tol_mm = 0.5'
    return text.replace('state = "empty"', stated).replace("reading_g =", f"{tol}\nreading_g =")
