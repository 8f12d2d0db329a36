"""One mistake in a small correct aeroplane at a time: found, named by lead and port, put right."""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from hardstand.description.write import apply_to_texts
from hardstand.engines.harness import STAGE
from tests.engines.harness.wired import findings, lead, mistaken, texts


@dataclass(frozen=True)
class Mistake:
    """A rule, the slips that break it, and words that its finding must name.

    `clears` is false where only hands can put it right: soldering, testing, buying.
    """

    code: str
    slips: tuple[tuple[str, str], ...]
    names: tuple[str, ...]
    clears: bool = True
    severity: str = "no-go"


def row(kind: str, text: str) -> tuple[str, str]:
    """A slip that adds a row, before the loads."""
    return "[[load]]\n", f"[[{kind}]]\n{text}\n[[load]]\n"


def without(name: str, start: str, goal: str) -> tuple[str, str]:
    """A slip that leaves a lead out: its ends are put where nothing is."""
    return f'from = "{start}"\nto = "{goal}"', f'from = "nowhere-{name}"\nto = "beside-{name}"'


FAR_HOLE = row("tray", 'id = "far"\noutline_mm = [[500, 60], [700, 60], [700, 200], [500, 200]]\ntop_z_mm = -40\n'
               '[[hole]]\nid = "far-hole"\ntray = "far"\nat_mm = [600, 150]\ndiameter_mm = 12\n')  # fmt: skip
BY_THE_HOLE = 'id = "near-hole"\nshape = "box"\nat_mm = [600, 150, 0]\nsize_mm = [20, 20, 70]\nkind = '
SECOND_PACK = 'id = "X1"\nfrom = "pack-b.lead"\nto = "hub-a.pack-2"\nbranch_of = "B1"\n'
TWO_INPUTS = (
    'part = "hub"\nid = "pack"\n', 'part = "hub"\nid = "pack"\nneeded = false\ncount = 2\n'
)  # fmt: skip
TO_TWO = (('to = "hub-a.pack"', 'to = "hub-a.pack-1"'), ('to = "hub-b.pack"', 'to = "hub-b.pack-1"'))
MISTAKES = (
    Mistake("polarity", (lead("B1", 'to_pins = ["minus", "plus"]'),), ("B1", "hub-b.pack")),
    Mistake("polarity", (lead("S1", 'to_pins = ["signal", "minus", "plus"]'),),
            ("S1", "el-left.lead")),
    Mistake("pin-order", (lead("S1", 'to_pins = ["plus", "signal", "minus"]'),),
            ("S1", "el-left.lead")),
    Mistake("pin-order", (lead("F1", 'from_pins = ["minus", "plus", "signal"]'),),
            ("F1", "hub-a.out-2")),
    Mistake("shared-port", (('"hub-a.out-2"\nto', '"hub-a.out-1"\nto'),), ("F1", "S1", "hub-a.out-1")),
    Mistake("port-kind", (('to = "leg.motor"', 'to = "leg.motor"\nnote = "x"'),
                          ('from = "gear.leg-1"', 'from = "lights.out-2"')), ("M1", "lights.out-2"),
            clears=False),
    Mistake("port-kind", (('to = "brake.in"', 'to = "brake.leg-1"'),), ("C2", "brake.leg-1")),
    Mistake("connector", (lead("B1", 'to_connector = "2-pole, 60 A class"'),), ("B1", "hub-b.pack")),
    Mistake("gender", (lead("B1", 'to_gender = "pin"'),), ("B1", "hub-b.pack")),
    Mistake("gender", (('length_mm = 1200\nawg = 20\nconnector = "3-pin 2.54 mm"\n[[lead]]\nid = "S2"',
                        'direct = true\n[[lead]]\nid = "S2"'),
                       (('part = "motor-servo"\nid = "lead"\nface = "front"\n'
                        'connector = "3-pin 2.54 mm"\npoles = 3\ngender = "socket"'),
                        ('part = "motor-servo"\nid = "lead"\nface = "front"\n'
                        'connector = "3-pin 2.54 mm"\npoles = 3\ngender = "pin"'))),
            ("S1", "el-left.lead")),
    Mistake("poles", (lead("S1", "to_poles = 2"),), ("S1", "el-left.lead")),
    Mistake("live-pins", (lead("B1", 'to_gender = "pin"'),
                          (('id = "pack"\nface = "front"\nkind = "power"\nconnector = '
                           '"2-pole, 30 A class"\npoles = 2\ngender = "pin"\ncurrent_a = 30'),
                           ('id = "pack"\nface = "front"\nkind = "power"\nconnector = '
                           '"2-pole, 30 A class"\npoles = 2\ngender = "socket"'))),
            ("B1", "hub-b.pack"), clears=False, severity="caution"),
    Mistake("signal-form", (('from = "rx-a.bus"\nto = "hub-a.bus-1"',
                             'from = "rx-a.out-1"\nto = "hub-a.bus-1"'),
                            ('from = "rx-a.bus"\nto = "hub-b.bus-1"',
                             'from = "rx-a.out-1"\nto = "hub-b.bus-1"')), ("R1", "hub-a.bus-1"),
            clears=False),
    Mistake("signal-form", ((('to = "hub-b.bus-1"\nlength_mm = 1200\nawg = 26\nconnector = '
                             '"3-pin 2.54 mm"\nbranch_of'), ('to = "flap-right.lead"\nlength_mm = 1200'
                             '\nawg = 26\nconnector = "3-pin 2.54 mm"\nbranch_of')),
                            without("F2", "hub-b.out-2", "flap-right.lead")),
            ("R2", "flap-right.lead", "rx-a.bus"), clears=False),
    Mistake("two-drivers", (row("lead", 'id = "X1"\nfrom = "hub-a.out-5"\nto = "rx-b.out-1"\n'
                                'to_pins = ["signal", "empty", "minus"]'),), ("X1", "rx-b.out-1")),
    Mistake("no-ground", (lead("S1", 'to_pins = ["signal", "plus", "empty"]'),),
            ("S1", "el-left.lead")),
    Mistake("second-ground", (row("lead", 'id = "X1"\nfrom = "hub-a.out-5"\nto = "hub-b.out-6"\n'
                                  'to_pins = ["empty", "empty", "minus"]\n'),), ("X1", "hub-b.out-6"),
            severity="caution"),
    Mistake("second-ground", (lead("T1", 'shield = "both ends"'),), ("T1",), severity="caution"),
    Mistake("packs-series", (row("lead", 'id = "X1"\nfrom = "pack-a.lead"\nto = "pack-b.lead"\n'
                                 'to_pins = ["minus", "plus"]'),), ("X1", "pack-a", "pack-b")),
    Mistake("packs-unlike", (TWO_INPUTS, *TO_TWO, row("lead", SECOND_PACK),
                             ('id = "pack-b"\npart = "small-pack"', 'id = "pack-b"\npart = "iron-pack"')),
            ("pack-a", "pack-b", "hub-a")),
    Mistake("backfeed", (lead("R2", ""), ('branch_of = "R1"\nto_pins = ["signal", "empty", "minus"]',
                                          'branch_of = "R1"')), ("R1", "R2", "hub-a.rail")),
    Mistake("backfeed", (row("lead", 'id = "X1"\nfrom = "pack-a.lead"\nto = "pack-b.lead"'),),
            ("X1", "pack-b.cells")),
    Mistake("voltage-high", (('id = "hub-b"\npart = "hub"', 'id = "hub-b"\npart = "hub"\nset_v = 8.0'),),
            ("S2", "el-right.lead")),
    Mistake("voltage-high", (('id = "pack-gear"\npart = "small-pack"',
                              'id = "pack-gear"\npart = "tall-pack"'),
                             ("[[load]]\n", '[[on_hand]]\nid = "spare"\npart = "small-pack"\n[[load]]\n')),
            ("G1", "gear.pack")),
    Mistake("voltage-low", (('id = "hub-b"\npart = "hub"', 'id = "hub-b"\npart = "hub"\nset_v = 3.9'),),
            ("R4", "rx-b.bus")),
    Mistake("voltage-low", (('id = "pack-engine"\npart = "engine-pack"',
                             'id = "pack-engine"\npart = "small-pack"'),
                            ("[[load]]\n", '[[on_hand]]\nid = "spare"\npart = "engine-pack"\n[[load]]\n')),
            ("E1", "engine.pack")),
    Mistake("unpowered", (without("G3", "pack-gear.lead", "lights.pack"),
                          ('branch_of = "G1"\n[[load]]', "[[load]]")), ("lights", "lights.pack")),
    Mistake("unconnected", (row("item", 'id = "spare-servo"\npart = "motor-servo"\nat_mm = [700, 0, 0]'),),
            ("spare-servo", "spare-servo.lead"), severity="caution"),
    Mistake("port-empty", (without("R3", "rx-b.bus", "hub-a.bus-2"), ('branch_of = "R3"\n', ""),),
            ("hub-a.bus-2",), clears=False, severity="caution"),
    Mistake("port-empty", (without("B1", "pack-b.lead", "hub-b.pack"),), ("hub-b.pack",)),
    Mistake("gear-on-flight-rail", (('from = "pack-gear.lead"\nto = "gear.pack"',
                                     'from = "pack-b.lead"\nto = "gear.pack"'),
                                    (('"lights.pack"\nlength_mm = 1200\nawg = 16\nconnector = '
                                     '"2-pole, 30 A class"\nbranch_of = "G1"'),
                                     ('"lights.pack"\nlength_mm = 1200\nawg = 16\nconnector = '
                                     '"2-pole, 30 A class"\nbranch_of = "G2"')),
                                    (('"brake.pack"\nlength_mm = 1200\nawg = 16\nconnector = '
                                     '"2-pole, 30 A class"\nbranch_of = "G1"'),
                                     ('"brake.pack"\nlength_mm = 1200\nawg = 16\nconnector = '
                                     '"2-pole, 30 A class"')),
                                    lead("G1", 'branch_of = "B1"')), ("G1", "gear.pack", "leg"),
            severity="caution"),
    Mistake("switch-leg", (('part = "switch-electronic-1-pack"', 'part = "switch-minus"'),),
            ("switch", "A1"), severity="caution"),
    Mistake("switch-fails-off", (('part = "switch-electronic-1-pack"', 'part = "switch-off"'),),
            ("switch", "A1")),
    Mistake("fuse-missing", (lead("G3", "area_mm2 = 0.3"),
                             ('"lights.pack"\nlength_mm = 1200\nawg = 16', '"lights.pack"\nlength_mm = 1200')),
            ("G3", "pack-gear.lead"), severity="caution"),
    Mistake("fuse-large", (lead("G1", "fuse_a = 30"),), ("G1", "pack-gear.lead")),
    Mistake("wire-load", (('"gear.pack"\nlength_mm = 1200\nawg = 16',
                           '"gear.pack"\nlength_mm = 1200\nawg = 30\nfuse_a = 0.5'),), ("G1",)),
    Mistake("pin-load", (("moving_a = 0.5", "moving_a = 7.0"), ("current_a = 4", "current_a = 20"),
                         without("F2", "hub-b.out-2", "flap-right.lead"),
                         without("F1", "hub-a.out-2", "flap-left.lead")), ("S1", "hub-a.out-1")),
    Mistake("pin-peak", (("stall_a = 3.0", "stall_a = 14.0"), ("current_a = 4", "current_a = 20"),
                         without("F1", "hub-a.out-2", "flap-left.lead")), ("S1", "hub-a.out-1"),
            severity="caution"),
    Mistake("rail-load", (("moving_a = 0.5", "moving_a = 4.9"), ("rated_a = 15", "rated_a = 6"),
                          ("current_a = 4", "current_a = 20")), ("hub-a.rail",), clears=False),
    Mistake("spare-length", (('"el-left.lead"\nlength_mm = 1200', '"el-left.lead"\nlength_mm = 640'),),
            ("S1",), severity="caution"),
    Mistake("routed-spare", (FAR_HOLE, lead("S1", 'via = ["far-hole"]'),
                             ('"el-left.lead"\nlength_mm = 1200', '"el-left.lead"\nlength_mm = 720')),
            ("S1", "far-hole"), severity="caution"),
    Mistake("route-hot", ((FAR_HOLE[0], f'[[keep_out]]\n{BY_THE_HOLE}"hot"\n{FAR_HOLE[1]}'),
                          lead("S1", 'via = ["far-hole"]')), ("S1", "near-hole"), severity="caution"),
    Mistake("route-moving", ((FAR_HOLE[0], f'[[keep_out]]\n{BY_THE_HOLE}"moving"\n{FAR_HOLE[1]}'),
                             lead("S1", 'via = ["far-hole"]')), ("S1", "near-hole"), severity="caution"),
    Mistake("route-aerial", ((FAR_HOLE[0], ('[[antenna]]\nid = "mast"\nitem = "rx-a"\ntip_mm = [600, 150, 20]\n'
                              f'direction = [0, 0, 1]\n{FAR_HOLE[1]}')), lead("E1", 'via = ["far-hole"]'),
                             ("moving_a = 2.3", "moving_a = 6.0")), ("E1", "mast"), severity="caution"),
    Mistake("no-channel", ((('id = "flap-right"\nfunction = ["flaps"]\nside = "right"\nat = '
                            '["hub-b.out-2"]\ndrives = ["flap-right"]'),
                            ('id = "flap-right"\nfunction = ["flaps"]\nside = "right"\n'
                            'drives = ["flap-left"]')),), ("flap-right", "F2", "hub-b.out-2")),
    Mistake("channel-empty", (('at = ["hub-b.out-4"]\ndrives', 'at = ["hub-b.out-7"]\ndrives'),),
            ("lights", "hub-b.out-7"), severity="caution"),
    Mistake("wrong-item", (('from = "hub-a.out-2"\nto = "flap-left.lead"',
                            'from = "hub-a.out-2"\nto = "gear.in"'),
                           ('from = "hub-a.out-3"\nto = "gear.in"',
                            'from = "hub-a.out-3"\nto = "flap-left.lead"')),
            ("F1", "hub-a.out-2", "gear")),
    Mistake("wrong-side", (('from = "hub-a.out-2"\nto = "flap-left.lead"',
                            'from = "hub-a.out-2"\nto = "flap-right.lead"'),
                           ('from = "hub-b.out-2"\nto = "flap-right.lead"',
                            'from = "hub-b.out-2"\nto = "flap-left.lead"'),
                           ('drives = ["flap-left"]', 'drives = ["flap-right"] # left'),
                           ('["hub-b.out-2"]\ndrives = ["flap-right"]',
                            '["hub-b.out-2"]\ndrives = ["flap-left"]')),
            ("F1", "hub-a.out-2", "flap-right")),
    Mistake("output-shared", (('at = ["hub-b.out-4"]\ndrives', 'at = ["hub-b.out-3"]\ndrives'),),
            ("lights", "brake", "hub-b.out-3", "C2")),
    Mistake("output-mixed", (('from = "hub-b.out-3"\nto = "brake.in"',
                              'from = "hub-b.out-2"\nto = "brake.in"'), lead("C2", 'branch_of = "F2"'),
                             (('id = "brake"\nfunction = ["brakes"]\nside = "whole"\nat = ["hub-b.out-3"]\n'
                              'drives = ["brake"]'), ('id = "mode"\nfunction = ["gyro-mode"]\n'
                              'drives = ["rx-a"]'))), ("C2", "hub-b.out-2", "brake")),
    Mistake("throttle-path", (without("T2", "hub-b.out-5", "engine.in-2"),
                              (('id = "cut"\nfunction = ["engine-aux"]\nside = "whole"\nat = '
                               '["hub-b.out-5"]\ndrives = ["engine"]'),
                               'id = "cut"\nfunction = ["gyro-mode"]\ndrives = ["rx-a"]')),
            ("T1", "engine.in-1"), severity="caution"),
    Mistake("single-failure", (('from = "hub-b.out-1"\nto = "el-right.lead"',
                                'from = "hub-a.out-6"\nto = "el-right.lead"'),
                               ('at = ["hub-b.out-1"]', 'at = ["hub-a.out-6"]')), ("When hub-a fails",)),
    Mistake("unknown-end", (('to = "lamp-left"', 'to = "unknown"\nmay_be = ["lamp-left"]'),),
            ("K1", "lights.out-1"), severity="measure"),
    Mistake("label-twice", (lead("S1", 'label = "elevator"'), lead("S2", 'label = "Elevator"')),
            ("S1", "S2", "el-right.lead"), severity="caution"),
)  # fmt: skip


def test_the_correct_aeroplane_is_silent() -> None:
    """A rule that fires on it is a defect of the rule."""
    assert findings(texts()) == ()


@pytest.mark.parametrize(
    "one", MISTAKES, ids=lambda one: f"{one.code}-{MISTAKES.index(one)}"
)
def test_each_mistake_is_found_named_and_put_right(one: Mistake) -> None:
    """Its finding names lead and port; its remedy, applied to the files, clears it."""
    files = mistaken(*one.slips)
    said = [found for found in findings(files) if found.code == f"harness.{one.code}"]
    assert said, [found.code for found in findings(files)]
    first = next((found for found in said if all(
        name in found.text or name in found.about for name in one.names)), None)  # fmt: skip
    assert first is not None, [(found.about, found.text) for found in said]
    assert first.severity == one.severity
    if not one.clears:
        return
    assert first.remedy is not None
    assert first.remedy.changes
    mended = files | apply_to_texts(files, first.remedy.changes)
    after = [found for found in findings(mended)
             if (found.code, found.about) == (first.code, first.about)]  # fmt: skip
    assert after == []


def test_every_rule_has_its_mistake() -> None:
    """But the two that speak of what is not described."""
    told = {one.code for one in MISTAKES} | {"missing", "assumption"}
    assert told == {rule.code.partition(".")[2] for rule in STAGE.rules}
    assert len(told) >= 25
