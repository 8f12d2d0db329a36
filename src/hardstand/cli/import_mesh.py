"""`hardstand import-mesh`: the inside of a fuselage out of a mesh, as sections of a bay."""

from __future__ import annotations

from pathlib import Path

import click

from hardstand.cli.folders import must_hold_aeroplane
from hardstand.cli.making import look_option, make
from hardstand.cli.quantities import quantity
from hardstand.cli.refusal import UNREADABLE, Refusal
from hardstand.cli.shared import as_json, folder
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk

_MOST = 200


@click.command("import-mesh", cls=Command, section="Measure",
               short_help="take a fuselage's inside from a mesh")
@click.argument("file", cls=Argument, metavar="FILE", type=Path, help="a closed mesh, in STL")
@folder
@click.option("--stations", metavar="X,X,…", help="where to cut it, aft of the datum")
@click.option("--count", type=click.IntRange(2, _MOST), metavar="NUMBER",
              help="or how many cuts, evenly over its length")
@click.option("--bay", metavar="ID", default="fuselage", help="the bay; fuselage if left out")
@click.option("--scale", type=click.FloatRange(1e-6, 1e6), metavar="NUMBER", default=1.0,
              help="times this it is in mm: 25.4 for inches; 1 if left out")
@click.option("--shift-x", metavar="LENGTH", default="0", help="how far aft to move it, once scaled")
@click.option("--shift-z", metavar="LENGTH", default="0", help="how far up")
@click.option("--skin", metavar="LENGTH", default="2", help="thickness of the skin; 2 mm if left out")
@click.option("--tol", metavar="LENGTH", help="how well the inside is known then: half the width that "
                                              "holds 95 of 100 cases; 2 mm if left out")
@look_option
@as_json
@click.pass_obj
def import_mesh(talk: Talk, /, file: Path, folder: Path, stations: str | None, count: int | None,
                bay: str, scale: float, look: bool, **lengths: str | None) -> int:
    """Cut a mesh of the fuselage into sections of a bay, as one change.

    The mesh lies with x aft, y to starboard and z up, and its surface is the outside of the skin,
    which is taken off. The table shows what was found: hold it against a rule in the fuselage.
    """
    from hardstand.description.mesh_import import MeshImport, imported_rows, section_form
    from hardstand.description.mesh_sections import MeshError
    from hardstand.views.sections import sections_page
    from hardstand.views.words import sentence
    from hardstand.workspace import open_folder

    must_hold_aeroplane(folder)
    at = _stations(stations, count)
    if not file.is_file():
        raise Refusal(f"There is no file {file}.", "Name a mesh in STL.", UNREADABLE)
    mm = {name: quantity(text, "mm", "--" + name.replace("_", "-")) for name, text in lengths.items()}
    workspace = open_folder(folder)
    what = MeshImport(file, bay, at, count or 0, scale, mm["shift_x"], mm["shift_z"], mm["skin"], mm["tol"])
    try:
        rows = imported_rows(workspace.base, what)
    except MeshError as error:
        raise Refusal(sentence(str(error)), status=UNREADABLE) from None
    sections = [section_form(row) for row in rows if row.kind == "section"]
    name = rows[-1].row["bay"]
    page = sections_page(name, file.name, sections, talk.measure, is_new=rows[0].kind == "bay")
    return make(talk, workspace, rows, f"{len(sections)} sections of bay {name} from {file.name}",
                look=look, page=page, also={"sections": sections})


def _stations(text: str | None, count: int | None) -> tuple[float, ...]:
    """The stations that were named; none where a number of them was asked for.

    >>> _stations("100, 10 in", None)
    (100, 254)
    """
    if (text is None) == (count is None):
        raise Refusal("Where is the mesh to be cut?", "Give --stations 100,250,400 or --count 12.")
    words = [one.strip() for one in (text or "").strip("[] ").split(",")]
    found = tuple(quantity(one, "mm", "--stations") for one in words if one)
    if text is not None and not found:
        raise Refusal("--stations names none.", "Give --stations 100,250,400 or --count 12.")
    if len(found) > _MOST:
        raise Refusal(f"{len(found)} stations are too many.", f"Give at most {_MOST}.")
    return tuple(sorted(set(found)))
