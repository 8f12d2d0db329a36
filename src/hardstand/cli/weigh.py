"""`hardstand weigh`: the aeroplane on scales, or on a two-point stand."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

import click

from hardstand.cli.folders import must_hold_aeroplane
from hardstand.cli.making import look_option, make
from hardstand.cli.quantities import day, quantity
from hardstand.cli.refusal import Refusal
from hardstand.cli.shared import as_json, options
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk

_UNITS = {"pitch": ("pitch_deg", "deg"), "pitch_tol": ("pitch_tol_deg", "deg"),
          "station_tol": ("station_tol_mm", "mm"), "stand": ("stand_x_mm", "mm"),
          "weight": ("weight_g", "g"), "at": ("weight_x_mm", "mm"),
          "resolution": ("resolution_g", "g"), "tol": ("reading_tol_g", "g")}  # fmt: skip
_OF_READINGS = ("resolution_g", "reading_tol_g")


@click.command(cls=Command, section="Measure", short_help="enter a weigh-in of the aeroplane")
@click.argument("folder", cls=Argument, metavar="DIR", default=".",
                help="the aeroplane's folder; the present one if left out")
@click.argument("readings", cls=Argument, metavar="LEG=READING", nargs=-1,
                help="what the scale under each leg shows, in g or with a unit; X,Y,Z=READING for a "
                     "scale under another point")
@click.option("--state", metavar="ID", help="the state it was weighed in")
@click.option("--resolution", metavar="MASS", help="the step of the scales")
@click.option("--tol", metavar="MASS", help="how well a scale is known: half the width that holds 95 of "
                                            "100 cases; 10 g if left out")
@click.option("--pitch", metavar="ANGLE", help="its attitude, nose up; 0 if left out")
@click.option("--pitch-tol", metavar="ANGLE", help="how well that is known")
@click.option("--station-tol", metavar="LENGTH", help="how well the stations are known")
@click.option("--stand", metavar="STATION", help="on a two-point stand: where that stood, aft of the datum")
@click.option("--tips", type=click.Choice(["nose", "tail", "level"]), help="on a stand: which end goes down")
@click.option("--weight", metavar="MASS", help="on a stand: the weight that levels it")
@click.option("--at", metavar="STATION", help="on a stand: where that weight lies")
@click.option("--date", metavar="DAY", help="when, such as 2026-04-18; today if left out")
@click.option("--by", metavar="TEXT", help="who weighed")
@options
@look_option
@as_json
@click.pass_obj
def weigh(talk: Talk, /, folder: str, readings: tuple[str, ...], state: str | None, date: str | None,
          by: str | None, options: tuple[str, ...], look: bool, **typed: str | None) -> int:
    """Enter a weigh-in into measurements.toml, and say what that does to the verdict.

    Two or three scales, or a two-point stand under the wing with --stand and --tips. Weigh with the
    fuel shut off and the packs unplugged; two people lift, and the wheels are chocked and free to
    roll to rest.

    `hardstand weigh --state empty nose-leg=1565 main-left=5905 main-right=5890 --resolution 5`
    """
    from hardstand.asbuilt.measuring import MeasureError
    from hardstand.asbuilt.weighing_in import weigh_in_rows
    from hardstand.workspace import open_folder

    place, shown = _sorted(folder, readings)
    must_hold_aeroplane(place)
    fields = {field: quantity(typed.get(name), unit, "--" + name.replace("_", "-"))
              for name, (field, unit) in _UNITS.items()}
    tips = typed.get("tips")
    every = {field: fields.pop(field) for field in _OF_READINGS}
    weighing = {"state": state, "date": day(date), "by": by, "tips": tips, **fields}
    workspace = open_folder(place, options)
    try:
        rows = weigh_in_rows(workspace.read, weighing,
                             [{**_reading(one), **every} for one in shown])
    except MeasureError as error:
        raise Refusal(str(error), error.hint) from None
    return make(talk, workspace, rows, f"weighed in state {rows[0].row['state']}", look=look)


def _sorted(folder: str, readings: Iterable[str]) -> tuple[Path, list[str]]:
    """The folder and the readings among the words, in whatever order they were typed."""
    words = [one for one in (folder, *readings) if one != "."]
    shown = [one for one in words if "=" in one]
    others = [one for one in words if "=" not in one]
    if len(others) > 1:
        raise Refusal(f"{others[1]} is no reading.", "Write LEG=READING, such as nose-leg=1565.")
    return Path(others[0] if others else "."), shown


def _reading(word: str) -> dict[str, Any]:
    """Where a scale stood and what it showed.

    >>> _reading("nose-leg=1565"), _reading("410,0,-90=3.45 lb")
    ({'under': 'nose-leg', 'reading_g': 1565}, {'at_mm': [410, 0, -90], 'reading_g': 1564.894})
    """
    where, _, shown = word.partition("=")
    mass = quantity(shown, "g", f"The reading of {where}")
    if "," not in where:
        return {"under": where, "reading_g": mass}
    place = [quantity(one.strip(), "mm", f"The place {where}") for one in where.split(",")]
    if len(place) != 3:
        raise Refusal(f"{where} is no place.", "Give x, y and z, such as 410,0,-90.")
    return {"at_mm": place, "reading_g": mass}
