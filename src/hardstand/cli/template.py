"""`hardstand template`: a tray at its true size, for paper, cutter and drawing program."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

import click

from hardstand.cli.folders import must_hold_aeroplane
from hardstand.cli.quantities import quantity
from hardstand.cli.refusal import UNREADABLE, Refusal, did_you_mean
from hardstand.cli.shared import as_json, folder, options
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk
from hardstand.views.words import sentence

if TYPE_CHECKING:
    from hardstand.views.drawing import Issue
    from hardstand.views.drawing.paper import Paper
    from hardstand.views.template import Template

FORMATS = ("pdf", "dxf", "svg")
PAPERS: dict[str, Paper] = {"a4": "A4", "letter": "Letter"}


@click.command("template", cls=Command, section="Ask", short_help="make a tray's template at its true size")
@click.argument("tray", cls=Argument, help="the tray's id")
@folder
@click.option("--format", "formats", multiple=True, type=click.Choice(FORMATS),
              help="only this format; all three if left out")
@click.option("--paper", type=click.Choice(list(PAPERS)), default="a4", help="the printer's paper; a4 if left out")
@click.option("--kerf-mm", "kerf", metavar="LENGTH", default="0",
              help="how wide the cutter's beam is, in DXF and SVG: outline moved out, openings in, by half")
@click.option("--out", type=Path, metavar="DIR", default=Path("templates"),
              help="where to write; templates in the present folder if left out")
@click.option("--force", is_flag=True, help="write over files that are there")
@options
@as_json
@click.pass_obj
def template(talk: Talk, /, tray: str, folder: Path, formats: tuple[str, ...], paper: str, kerf: str,
             out: Path, options: tuple[str, ...], *, force: bool) -> int:
    """Make the template of a tray: outline, openings, slots, stations, where equipment stands.

    The PDF spreads it over sheets that join by crosses, with two bars to measure before cutting. DXF
    and SVG are for a cutter: what is cut, engraved and only shown lies on layers of its own. An
    opening too narrow for the leads routed through it is named. See docs/templates.md.
    """
    from hardstand.description.safe_files import make_folder, write_whole
    from hardstand.views.template.form_json import template_form
    from hardstand.views.templated import templated_page

    must_hold_aeroplane(folder)
    chosen = [one for one in FORMATS if one in (formats or FORMATS)]
    files = [(kind, out / f"{tray}.{kind}") for kind in chosen]
    made, issue = _made(talk, tray, folder, options, quantity(kerf, "mm", "--kerf-mm"))
    there = [path for _, path in files if path.exists()]
    if there and not force:
        raise Refusal(f"{there[0]} would be written over.", "Give --force to do so, or --out another folder.",
                      UNREADABLE)
    written = [(path, _content(kind, made, PAPERS[paper], issue)) for kind, path in files]
    try:
        make_folder(out)
        for path, content in written:
            write_whole(path, content)
    except OSError as error:
        raise Refusal(f"{out} cannot be written to: {error.strerror}.", status=UNREADABLE) from None
    form = template_form(made, PAPERS[paper], [(kind, str(path)) for kind, path in files])
    if talk.as_json:
        talk.data(form)
    else:
        talk.page(templated_page(form, talk.measure))
    return 0


def _made(talk: Talk, tray: str, folder: Path, options: tuple[str, ...], kerf_mm: float) -> tuple[Template, Issue]:
    """The template and what it was made from; raises Refusal where there is no such tray."""
    from hardstand.cli.progress import progress
    from hardstand.description.revisions import history
    from hardstand.views.drawing import Issue
    from hardstand.views.template import TemplateError
    from hardstand.views.template import template as made_of
    from hardstand.workspace import open_folder

    if kerf_mm < 0.0:
        raise Refusal("--kerf-mm is less than 0.", "Give the width of the beam, such as 0.15.")
    with progress(talk, "reading the aeroplane") as tell:
        workspace = open_folder(folder, options)
        asbuilt = workspace.as_built()
        trays = [one.id for one in asbuilt.trays]
        if tray not in trays:
            known = f"There are {', '.join(trays)}." if trays else "No tray is described."
            raise Refusal(f"There is no tray {tray}.", did_you_mean(tray, trays, known))
        try:
            found = made_of(asbuilt, workspace.assess(tell=tell), tray, kerf_mm)
        except TemplateError as error:
            raise Refusal(sentence(str(error)), "Give a smaller --kerf-mm.", UNREADABLE) from None
    last = next(iter(reversed(history(workspace.folder))), None)
    layout = ", ".join(options) or "as described"
    return found, Issue(layout, last.name if last else "", last.when[:10] if last else "")


def _content(kind: str, made: Template, paper: Paper, issue: Issue) -> bytes:
    if kind == "dxf":
        from hardstand.views.template.dxf import template_dxf

        return template_dxf(made)
    if kind == "svg":
        from hardstand.views.template.svg import template_svg

        return template_svg(made).encode("utf-8")
    from hardstand.views.template.paper import template_pdf

    date = dt.date.fromisoformat(issue.date) if issue.date else dt.datetime.now(dt.UTC).date()
    return template_pdf(made, paper, date, issue)
