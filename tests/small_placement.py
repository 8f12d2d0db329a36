"""A small aeroplane with boxes on a tray to be placed, for the tests of placing."""

from __future__ import annotations

HEAD = """\
format = 1

[aeroplane]
name = "Wren"
cg_target_mm = [195, 205]
cg_target_state = "empty"

[cg_mark]
name = "wing leading edge at the root"
at_mm = [100, 60, 0]

[[state]]
id = "empty"

[[mass]]
id = "shell"
mass_g = 3000
at_mm = [300, 0, 0]
"""

TRAY = """
[[tray]]
id = "shelf"
name = "Shelf"
outline_mm = [[100, -60], [260, -60], [260, 60], [100, 60]]
top_z_mm = 0
"""

PARTS = """
[[part]]
id = "box"
kind = "other"
size_mm = [30, 40, 10]
mass_g = 50

[[port]]
part = "box"
id = "lead"
face = "front"
plug_mm = 10
bend_mm = 5
row_mm = [10, 6]

[[part]]
id = "cube"
kind = "other"
size_mm = [20, 20, 20]
mass_g = 200
"""

ITEMS = """
[[item]]
id = "hub"
name = "Hub"
part = "box"
on = "shelf"
at_mm = [150, 0]

[[item]]
id = "pump"
name = "Pump"
part = "box"
on = "shelf"
at_mm = [230, 30]
turn_deg = 180

[[item]]
id = "weight"
name = "Weight"
part = "cube"
on = "shelf"
at_mm = [200, 0]
move_x_mm = [180, 240]

[[item]]
id = "sink"
name = "Sink"
part = "box"
at_mm = [400, 0, 10]

[[lead]]
id = "L1"
from = "hub.lead"
to = "pump.lead"
awg = 22

[[lead]]
id = "L2"
from = "hub.lead"
to = "sink.lead"
awg = 14

[[keep_out]]
id = "post"
shape = "prism"
outline_mm = [[170, -40], [180, -40], [180, -30], [170, -30]]
bottom_mm = -10
top_mm = 40
"""

BAY = """
[[bay]]
id = "hull"

[[section]]
id = "hull-front"
bay = "hull"
x_mm = 60
half_width_mm = 74
top_mm = 60
bottom_mm = -40
corner_mm = 30

[[section]]
id = "hull-aft"
bay = "hull"
x_mm = 440
half_width_mm = 50
top_mm = 40
bottom_mm = -30
corner_mm = 20
"""

TEXT = HEAD + TRAY + PARTS + ITEMS + BAY


def tight(length_mm: int) -> str:
    """Two boxes of 30 x 40 mm, that may not turn, on a shelf so long: 65 mm is just enough.

    2 x 30 mm of boxes, 3 mm between them (2 mm and 0.9 mm of doubt), 1 mm to either edge (0.8 mm).
    """
    tray = f"""
[[tray]]
id = "shelf"
name = "Shelf"
outline_mm = [[100, -25], [{100 + length_mm}, -25], [{100 + length_mm}, 25], [100, 25]]
top_z_mm = 0
"""
    items = "".join(
        f'\n[[item]]\nid = "{name}"\nname = "{name.title()}"\npart = "plain"\non = "shelf"\n'
        f"at_mm = [{x}, 0]\n"
        for name, x in (("hub", 117), ("pump", 148))
    )
    part = '\n[[part]]\nid = "plain"\nsize_mm = [30, 40, 10]\nmass_g = 50\n'
    return HEAD + tray + part + items
