"""Templates for the tests: the demo's trays, and a tray of one's own with leads through an opening."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import hardstand
from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import Assessment, assess
from hardstand.description.read import read_texts
from hardstand.stages import stages
from hardstand.views.template import Template, template
from hardstand.views.template.cuts import Cut
from hardstand.views.template.value import Ring
from hardstand.workspace import open_folder

DEMO = Path(hardstand.__file__).parent / "data" / "demo"
MOMENTS = ("s0", "s1", "s2")
TRAYS = ("nose-tray", "main-tray", "gyro-plate")
OWN = """
format = 1
[aeroplane]
name = "Own"
[[tray]]
id = "ell"
name = "An L with a slanted side"
outline_mm = [[100, -120], [700, -80.5], [700, 40], [400, 40], [400, 150.25], [100, 150.25]]
top_z_mm = 0
thickness_mm = 3
[[hole]]
id = "way"
tray = "ell"
at_mm = [200, 20]
diameter_mm = 9
[[hole]]
id = "slanted"
tray = "ell"
purpose = "ties"
from_mm = [300, 60]
to_mm = [330, 100]
width_mm = 4
[[hole]]
id = "window"
tray = "ell"
purpose = "lightening"
outline_mm = [[500, -40], [600, -50], [580, 10]]
[[hole]]
id = "notch"
tray = "ell"
purpose = "screw"
at_mm = [700, 0]
diameter_mm = 10
[[item]]
id = "box"
part = "receiver-6-channel"
on = "ell"
at_mm = [150, 80]
turn_deg = 90
""" + "".join(f'[[lead]]\nid = "L{k}"\nfrom = "a{k}"\nto = "b{k}"\nvia = ["way"]\nawg = 22\n' for k in range(6))


@cache
def demo(moment: str) -> tuple[AsBuilt, Assessment]:
    """A moment of the demo, as built and assessed."""
    workspace = open_folder(DEMO / moment)
    return workspace.as_built(), workspace.assess()


@cache
def own(kerf_mm: float = 0.0) -> Template:
    """The template of a tray that has every kind of opening."""
    built = build(read_texts({"aeroplane.toml": OWN}).description)
    return template(built, assess(built, stages()), "ell", kerf_mm)


def of_demo(tray: str, moment: str = "s1", kerf_mm: float = 0.0) -> Template:
    """The template of a tray of the demo."""
    return template(*demo(moment), tray, kerf_mm)


def sample(name: str) -> Template:
    """A template by name: a tray of the demo, `own`, or `own` and a kerf."""
    first, _, kerf = name.partition(" ")
    return own(float(kerf or 0.0)) if first == "own" else of_demo(first)


def cuts_of(made: Template) -> dict[str, Cut]:
    """Its cuts by what they are about."""
    return {one.about: one for one in made.of("cut") if isinstance(one, Cut)}


def outline_of(made: Template) -> Ring:
    """Its outline."""
    found = cuts_of(made)[f"tray.{made.tray}"]
    assert isinstance(found, Ring)
    return found

