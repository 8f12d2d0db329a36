"""A small correct aeroplane with two of everything, and the harness engine run on it alone."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping

from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import Assessment, assess
from hardstand.description.read import read_texts
from hardstand.engines.harness import STAGE
from hardstand.findings import Finding

Texts = Mapping[str, str]
PARTS = """
[[part]]
id = "hub"
kind = "distribution"
size_mm = [80, 40, 20]
mass_g = 100
set_v = 7.0
drop_v = 0.2
rated_a = 15
outputs = 8
[[port]]
part = "hub"
id = "pack"
face = "front"
kind = "power"
connector = "2-pole, 30 A class"
poles = 2
gender = "pin"
current_a = 30
[[port]]
part = "hub"
id = "bus"
count = 2
face = "back"
connector = "3-pin 2.54 mm"
poles = 3
gender = "pin"
[[port]]
part = "hub"
id = "out"
count = 8
face = "back"
connector = "3-pin 2.54 mm"
poles = 3
gender = "pin"
current_a = 5
[[port]]
part = "hub"
id = "out-strong"
face = "back"
connector = "3-pin 2.54 mm"
poles = 3
gender = "pin"
current_a = 20
[[part]]
id = "rx"
kind = "receiver"
size_mm = [40, 20, 10]
mass_g = 12
low_v = 4.0
high_v = 8.4
idle_a = 0.1
[[port]]
part = "rx"
id = "bus"
face = "front"
connector = "3-pin 2.54 mm"
poles = 3
gender = "pin"
[[port]]
part = "rx"
id = "out"
count = 2
face = "front"
connector = "3-pin 2.54 mm"
poles = 3
gender = "pin"
[[part]]
id = "motor-servo"
kind = "servo"
size_mm = [40, 20, 40]
mass_g = 60
low_v = 4.8
high_v = 7.4
idle_a = 0.02
moving_a = 0.5
stall_a = 3.0
[[port]]
part = "motor-servo"
id = "lead"
face = "front"
connector = "3-pin 2.54 mm"
poles = 3
gender = "socket"
current_a = 4
[[part]]
id = "unit"
kind = "gear-controller"
size_mm = [40, 20, 10]
mass_g = 20
low_v = 6.0
high_v = 8.4
[[port]]
part = "unit"
id = "pack"
face = "front"
kind = "power"
connector = "2-pole, 30 A class"
poles = 2
gender = "pin"
[[port]]
part = "unit"
id = "in"
face = "front"
connector = "3-pin 2.54 mm"
poles = 3
gender = "pin"
[[port]]
part = "unit"
id = "leg"
count = 2
face = "back"
kind = "motor"
connector = "2-pole"
poles = 2
[[part]]
id = "retract"
kind = "retract"
size_mm = [60, 40, 40]
mass_g = 300
[[port]]
part = "retract"
id = "motor"
face = "front"
kind = "motor"
connector = "2-pole"
poles = 2
moving_a = 1.3
stall_a = 4.5
[[part]]
id = "brakes"
extends = "unit"
kind = "brake-controller"
[[part]]
id = "lights"
extends = "unit"
kind = "light-controller"
[[port]]
part = "lights"
id = "out"
count = 2
face = "back"
kind = "power"
connector = "2-pole"
poles = 2
[[part]]
id = "engine-unit"
kind = "turbine-controller"
size_mm = [60, 40, 20]
mass_g = 90
low_v = 9.0
idle_a = 1.2
moving_a = 2.3
peak_a = 9.0
[[port]]
part = "engine-unit"
id = "pack"
face = "front"
kind = "power"
connector = "2-pole, 60 A class"
poles = 2
gender = "pin"
[[port]]
part = "engine-unit"
id = "in"
count = 2
face = "front"
connector = "3-pin 2.54 mm"
poles = 3
gender = "pin"
[[part]]
id = "switch-minus"
extends = "switch-electronic-1-pack"
breaks = "minus"
[[part]]
id = "switch-off"
extends = "switch-electronic-1-pack"
when_broken = "off"
[[part]]
id = "small-pack"
extends = "pack-li-po-2s-1300"
[[part]]
id = "iron-pack"
extends = "pack-li-fe-2s-1450"
[[part]]
id = "tall-pack"
extends = "pack-li-po-3s-1300"
[[part]]
id = "engine-pack"
extends = "pack-li-po-3s-2600"
"""
ITEMS = {
    "pack-a": ("small-pack", 0, -60), "pack-b": ("small-pack", 0, 60),
    "pack-gear": ("small-pack", 0, 0), "pack-engine": ("engine-pack", 100, 0),
    "switch": ("switch-electronic-1-pack", 100, -90),
    "hub-a": ("hub", 200, -60), "hub-b": ("hub", 200, 60),
    "rx-a": ("rx", 300, -60), "rx-b": ("rx", 300, 60),
    "el-left": ("motor-servo", 900, -60), "el-right": ("motor-servo", 900, 60),
    "flap-left": ("motor-servo", 600, -300), "flap-right": ("motor-servo", 600, 300),
    "gear": ("unit", 300, 0), "leg": ("retract", 400, 0), "brake": ("brakes", 300, 90),
    "lights": ("lights", 300, -90), "engine": ("engine-unit", 500, 0),
}  # fmt: skip
THREE, TWO = "3-pin 2.54 mm", "2-pole, 30 A class"
LEADS = {
    "A1": ("pack-a.lead", "switch.pack", TWO, 16), "A2": ("switch.out", "hub-a.pack", TWO, 16),
    "B1": ("pack-b.lead", "hub-b.pack", TWO, 16), "G1": ("pack-gear.lead", "gear.pack", TWO, 16),
    "E1": ("pack-engine.lead", "engine.pack", "2-pole, 60 A class", 16),
    "R1": ("rx-a.bus", "hub-a.bus-1", THREE, 26), "R2": ("rx-a.bus", "hub-b.bus-1", THREE, 26),
    "R3": ("rx-b.bus", "hub-a.bus-2", THREE, 26), "R4": ("rx-b.bus", "hub-b.bus-2", THREE, 26),
    "S1": ("hub-a.out-1", "el-left.lead", THREE, 20),
    "S2": ("hub-b.out-1", "el-right.lead", THREE, 20),
    "F1": ("hub-a.out-2", "flap-left.lead", THREE, 20),
    "F2": ("hub-b.out-2", "flap-right.lead", THREE, 20),
    "C1": ("hub-a.out-3", "gear.in", THREE, 26), "C2": ("hub-b.out-3", "brake.in", THREE, 26),
    "C3": ("hub-b.out-4", "lights.in", THREE, 26),
    "T1": ("hub-a.out-4", "engine.in-1", THREE, 26),
    "T2": ("hub-b.out-5", "engine.in-2", THREE, 26),
    "M1": ("gear.leg-1", "leg.motor", "2-pole", 20),
    "K1": ("lights.out-1", "lamp-left", "2-pole", 24),
    "G2": ("pack-gear.lead", "brake.pack", TWO, 16), "G3": ("pack-gear.lead", "lights.pack", TWO, 16),
}  # fmt: skip
MORE = {
    "R2": 'branch_of = "R1"\nto_pins = ["signal", "empty", "minus"]\n',
    "R3": 'to_pins = ["signal", "empty", "minus"]\n', "R4": 'branch_of = "R3"\n',
    "G2": 'branch_of = "G1"\n', "G3": 'branch_of = "G1"\n',
}  # fmt: skip
CHANNELS = {
    "el-left": (["pitch", "roll"], "left", "hub-a.out-1"),
    "el-right": (["pitch", "roll"], "right", "hub-b.out-1"),
    "flap-left": (["flaps"], "left", "hub-a.out-2"),
    "flap-right": (["flaps"], "right", "hub-b.out-2"), "gear": (["gear"], "whole", "hub-a.out-3"),
    "brake": (["brakes"], "whole", "hub-b.out-3"), "lights": (["lights"], "whole", "hub-b.out-4"),
    "engine": (["throttle"], "whole", "hub-a.out-4"),
    "cut": (["engine-aux"], "whole", "hub-b.out-5"),
}  # fmt: skip


def texts() -> dict[str, str]:
    """The correct aeroplane as files."""
    main = ['format = 1\n[aeroplane]\nname = "Wired"\n']
    main += [f'[[item]]\nid = "{name}"\npart = "{part}"\nat_mm = [{x}, {y}, 0]\n'
             for name, (part, x, y) in ITEMS.items()]  # fmt: skip
    main += [f'[[lead]]\nid = "{name}"\nfrom = "{start}"\nto = "{goal}"\nlength_mm = 1200\n'
             f'awg = {awg}\nconnector = "{connector}"\n{MORE.get(name, "")}'
             for name, (start, goal, connector, awg) in LEADS.items()]  # fmt: skip
    main += ['[[load]]\nid = "lamp"\nat = "lamp-left"\nmoving_a = 0.4\n']
    main += [f'[[channel]]\nid = "{name}"\nfunction = {_listed(functions)}\nside = "{side}"\n'
             f'at = ["{at}"]\ndrives = ["{"engine" if name == "cut" else name}"]\n'
             for name, (functions, side, at) in CHANNELS.items()]  # fmt: skip
    return {"aeroplane.toml": "".join(main), "parts/own.toml": PARTS}


def _listed(words: Iterable[str]) -> str:
    return "[" + ", ".join(f'"{one}"' for one in words) + "]"


def mistaken(*slips: tuple[str, str]) -> dict[str, str]:
    """The correct aeroplane with pieces of text exchanged, each of which stands once in its file."""
    found = texts()
    for old, new in slips:
        home = [name for name, text in found.items() if text.count(old) == 1]
        assert len(home) == 1, (old, [text.count(old) for text in found.values()])
        found[home[0]] = found[home[0]].replace(old, new)
    return found


def lead(name: str, more: str) -> tuple[str, str]:
    """A slip that writes more lines into a lead's row."""
    return f'[[lead]]\nid = "{name}"\n', f'[[lead]]\nid = "{name}"\n{more}\n'


def built(files: Texts) -> AsBuilt:
    """These files as built."""
    return build(read_texts(files).description)


def assessed(files: Texts) -> Assessment:
    """What the harness alone says of these files."""
    return assess(built(files), [STAGE])


def findings(files: Texts) -> tuple[Finding, ...]:
    """The findings of the harness alone."""
    return assessed(files).findings


def row_of(files: Texts, name: str) -> dict[str, object]:
    """A lead's row as it stands in the files."""
    data = tomllib.loads(files["aeroplane.toml"])
    return dict(next(one for one in data["lead"] if one["id"] == name))
