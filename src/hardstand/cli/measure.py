"""`hardstand measure`: what the bench measured, laid over what is declared."""

from __future__ import annotations

from pathlib import Path

import click

from hardstand.cli.folders import must_hold_aeroplane
from hardstand.cli.making import look_option, make
from hardstand.cli.quantities import day, number_from
from hardstand.cli.refusal import Refusal
from hardstand.cli.shared import as_json, folder, options
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk


@click.command(cls=Command, section="Measure", short_help="enter what was measured of one thing")
@click.argument("address", cls=Argument, help="of what: kind.id.field, such as mass.wing-left.mass_g")
@click.argument("value", cls=Argument, help='what was measured: 884, "31.2 oz", "[260, -34]"; '
                                            "write -- before a negative number")
@folder
@click.option("--tol", metavar="NUMBER", help="how well it is known: half the width that holds 95 of "
                                              "100 cases; the usual one of its kind if left out")
@click.option("--with", "instrument", metavar="TEXT", default="", help="the scale or rule it was "
                                                                       "measured with")
@click.option("--date", metavar="DAY", help="when, such as 2026-04-18; today if left out")
@options
@look_option
@as_json
@click.pass_obj
def measure(talk: Talk, address: str, value: str, folder: Path, tol: str | None, instrument: str,
            date: str | None, options: tuple[str, ...], look: bool) -> int:
    """Enter a measured value into measurements.toml, and say what that does to the verdict.

    What is declared stays in the file. The measured value takes its place for as long as the
    declared one, and the part, are what they are now; after that it is kept and shown as stale.
    A later measurement of the same thing comes before an earlier one.
    """
    from hardstand.asbuilt.measuring import MeasureError, measurement_row
    from hardstand.workspace import open_folder

    must_hold_aeroplane(folder)
    workspace = open_folder(folder, options)
    try:
        row = measurement_row(workspace.read, address, number_from(value),
                              tol=None if tol is None else number_from(tol),
                              instrument=instrument, date=day(date))
    except MeasureError as error:
        raise Refusal(str(error), error.hint) from None
    return make(talk, workspace, [row], f"measured {row.row['address']}", look=look)
