"""Small aeroplanes made up by chance: each can be read, and has some of the tables that there are."""

from __future__ import annotations

from collections.abc import Mapping
from random import Random

Texts = dict[str, str]

FRAME = """\
format = 1

[aeroplane]
name = "Made up {number}"
span_mm = {span}
cg_range_mm = [{low}, {high}]
cg_range_state = "dry"

[cg_mark]
name = "leading edge"
at_mm = [{mark}, 90, -10]
at_tol_mm = 1.5

[[mass]]
id = "shell"
mass_g = {shell}
mass_tol_g = 15
at_mm = [{shell_x}, 0, 4]
size_mm = [1500, 160, 150]

[[mass]]
id = "wing"
mass_g = 1700        # both halves
at_mm = [{wing_x}, 0, -20]
at_tol_mm = 6
ixx_kgm2 = 0.11

[[state]]
id = "dry"
flown = false

[[state]]
id = "full"
gear = "up"
fuel_pct = 100
pitch_deg = 2.5
"""
PLANFORM = """
[[panel]]
id = "wing-panel"
surface = "wing"
root_mm = [{wing_root}, 0, -20]
tip_mm = [{wing_tip}, 760, -20]
root_chord_mm = 430
tip_chord_mm = 190

[[panel]]
id = "tail-panel"
surface = "tail"
root_mm = [1560, 50, 40]
tip_mm = [1650, 310, 40]
root_chord_mm = 230
tip_chord_mm = 120
"""
BAY = """
[[bay]]
id = "hull"

[[section]]
id = "hull-front"
bay = "hull"
x_mm = 150
half_width_mm = 75
top_mm = 70
bottom_mm = -70
corner_mm = 20

[[section]]
id = "hull-middle"
bay = "hull"
x_mm = 800
outline_mm = [[-95, -80], [95, -80], [80, 90], [-80, 90]]
tol_mm = 1

[[section]]
id = "hull-aft"
bay = "hull"
x_mm = 1700
half_width_mm = 60
top_mm = 60
bottom_mm = -60
"""
TRAY = """
[[tray]]
id = "front"
outline_mm = [[200, -70], [560, -70], [560, 70], [200, 70]]
top_z_mm = -30
height_mm = 80

[[hole]]
id = "round"
tray = "front"
at_mm = [540, 0]
diameter_mm = 14

[[hatch]]
id = "nose-hatch"
outline_mm = [[200, -70], [500, -70], [500, 70], [200, 70]]

[[item]]
id = "pack"
part = "{pack}"
on = "front"
at_mm = [{pack_x}, -32]
move_x_mm = [270, 470]
through = "nose-hatch"

[[item]]
id = "rx"
part = "receiver-12-channel"
on = "front"
at_mm = [{rx_x}, 36]
turn_deg = {turn}

[[item]]
id = "gyro"
part = "my-gyro"
at_mm = [820, 0, 20]
misalignment_deg = [0.3, 0.2, 0.5]

[[antenna]]
id = "aerial-1"
item = "rx"
tip_mm = [330, 60, 40]
direction = [0, 0, 1]

[[lead]]
id = "L1"
from = "rx.out-front-3"
to = "gyro.bus"
length_mm = 500
awg = 26
"""
KEEP_OUTS = """
[[keep_out]]
id = "tub"
kind = "tub"
shape = "underside"
profile_mm = [[200, 45], [380, 38], [560, 46]]
y_mm = [-70, 70]
removable = true

[[keep_out]]
id = "wheel-up"
kind = "moving"
shape = "cylinder"
from_mm = [640, -12, -40]
to_mm = [640, 12, -40]
diameter_mm = 70

[[keep_out]]
id = "former"
shape = "prism"
outline_mm = [[600, -80], [603, -80], [603, 80], [600, 80]]
bottom_mm = -60
top_mm = 10
tol_mm = 0.5
"""
TANKS = """
[fuel]
density_kg_m3 = 802
reserve_pct = 25

[[item]]
id = "tank-a"
part = "my-tank"
at_mm = [{tank_x}, 0, 15]

[[item]]
id = "trap"
part = "my-trap"
at_mm = [720, 0, 10]

[[tank]]
id = "main"
item = "tank-a"
capacity_ml = {capacity}
unusable_ml = 25

[[tank]]
id = "header"
item = "trap"
capacity_ml = 110
header = true
"""
LEGS = """
[[item]]
id = "gear-nose"
part = "my-gear"
at_mm = [420, 0, -55]

[[item]]
id = "gear-left"
part = "my-gear"
at_mm = [1090, -220, -30]

[[item]]
id = "gear-right"
part = "my-gear"
at_mm = [1090, 220, -30]

[ground]
tail_strike_mm = [1850, 0, -50]

[[leg]]
id = "leg-nose"
item = "gear-nose"
place = "nose"
pivot_mm = [420, 0, -40]
contact_mm = [420, 0, -250]
wheel_radius_mm = 32
wheel_width_mm = 22
moving_g = 150
down_mm = [420, 0, -170]
up_mm = [550, 0, -40]

[[leg]]
id = "leg-left"
item = "gear-left"
place = "left"
pivot_mm = [1090, -220, -25]
contact_mm = [1090, -220, -250]
wheel_radius_mm = 38
wheel_width_mm = 24
moving_g = 220
down_mm = [1090, -220, -170]
up_mm = [1090, -100, -25]

[[leg]]
id = "leg-right"
item = "gear-right"
place = "right"
pivot_mm = [1090, 220, -25]
contact_mm = [1090, 220, -250]
wheel_radius_mm = 38
wheel_width_mm = 24
moving_g = 220
down_mm = [1090, 220, -170]
up_mm = [1090, 100, -25]
"""
CHOICES = """
[[ballast_place]]
id = "tail"
at_mm = [1780, 0, -20]
most_g = 400

[[limit]]
id = "fit.box-gap"
low = 1.5
reason = "strapped down"

[[accept]]
id = "taken-on"
code = "balance.not-weighed"
about = ["aeroplane"]
by = "builder"
reason = "to be weighed before the first flight"

[[option]]
id = "lighter"
[option.set]
"mass.shell.mass_g" = 2900
"cg_mark.at_tol_mm" = 1.0

[[option]]
id = "ballast"
remove = ["mass.wing"]
[[option.add.mass]]
id = "lump"
mass_g = 150
at_mm = [1780, 0, -20]
"""
PARTS = """\
[[part]]
id = "my-gyro"
kind = "gyro"
size_mm = [42, 28, 14]
has_accelerometer = true
mass_g = 28

[[port]]
part = "my-gyro"
id = "bus"
face = "front"

[[part]]
id = "my-tank"
kind = "tank"
size_mm = [280, 110, 75]
mass_g = 140

[[part]]
id = "my-trap"
kind = "header-tank"
shape = "cylinder"
size_mm = [66, 56, 56]
mass_g = 60

[[part]]
id = "my-gear"
kind = "retract"
size_mm = [80, 34, 40]
mass_g = 380
cg_offset_mm = [0, 0, -60]
material = "metal"

[[part]]
id = "my-pack"
extends = "pack-li-po-2s-2200"
mass_g = 121
"""
WEIGHED = """\
[[measurement]]
id = "shell-weighed"
address = "mass.shell.mass_g"
value = {shell_weighed}
tol = 4
declared = {shell}
"""
ON_SCALES = """
[[weighing]]
id = "first"
state = "dry"
pitch_deg = 0.2

[[reading]]
id = "first-nose"
weighing = "first"
under = "leg-nose"
reading_g = 900

[[reading]]
id = "first-left"
weighing = "first"
under = "leg-left"
reading_g = 3100
resolution_g = 5

[[reading]]
id = "first-right"
weighing = "first"
under = "leg-right"
reading_g = 3080
"""


def small_aeroplane(random: Random) -> Texts:
    """The files of one aeroplane that can be read."""
    names: Mapping[str, object] = {
        "number": random.randrange(1000),
        "span": random.randrange(1400, 2600, 10),
        "low": 100 + random.randrange(60),
        "high": 170 + random.randrange(60),
        "mark": 700 + random.randrange(150),
        "shell": 2500 + random.randrange(1500),
        "shell_weighed": 2500 + random.randrange(1500),
        "shell_x": 850 + random.randrange(100),
        "wing_x": 980 + random.randrange(80),
        "wing_root": 680 + random.randrange(80),
        "wing_tip": 850 + random.randrange(200),
        "pack": random.choice(["my-pack", "pack-li-po-2s-3600", "pack-li-ion-2s-2600"]),
        "pack_x": 280 + random.randrange(150),
        "rx_x": 260 + random.randrange(150),
        "turn": random.choice([0, 90, 180, 270]),
        "tank_x": 900 + random.randrange(100),
        "capacity": 800 + 10 * random.randrange(80),
    }
    legs = random.random() < 0.3
    planform = random.random() < 0.15  # the slowest to assess
    pieces = [
        FRAME,
        PLANFORM if planform else "",
        BAY if planform or random.random() < 0.3 else "",
        TRAY if random.random() < 0.45 else "",
        KEEP_OUTS if random.random() < 0.4 else "",
        TANKS if random.random() < 0.5 else "",
        LEGS if legs else "",
        CHOICES if random.random() < 0.4 else "",
    ]
    texts = {"aeroplane.toml": "".join(pieces).format_map(names), "parts/own.toml": PARTS}
    if random.random() < 0.5:
        texts["measurements.toml"] = (WEIGHED + (ON_SCALES if legs else "")).format_map(names)
    return texts
