"""`hardstand harness`: labels, cut list, bill of material and drawing of the harness, for paper."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

import click

from hardstand.cli.folders import must_hold_aeroplane
from hardstand.cli.refusal import UNREADABLE, Refusal
from hardstand.cli.shared import as_json, folder, options
from hardstand.cli.sheet import Command
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    from hardstand.views.drawing.paper import Paper

PAPERS: dict[str, Paper] = {"a4": "A4", "letter": "Letter"}


@click.command("harness", cls=Command, section="Ask", short_help="labels, cut list, bill, drawing of the leads")
@folder
@click.option("--labels", is_flag=True, help="only labels for both ends of every lead, three by eight a sheet")
@click.option("--cut-list", "cut_list", is_flag=True, help="only what to cut, or to buy, by wire")
@click.option("--bill", is_flag=True, help="only wire, plugs and adapters, summed")
@click.option("--drawing", is_flag=True, help="only who is joined to whom: the whole, then each tray")
@click.option("--paper", type=click.Choice(list(PAPERS)), default="a4", help="the printer's paper; a4 if left out")
@click.option("--out", type=Path, metavar="DIR", default=Path("harness"),
              help="where to write; harness in the present folder if left out")
@click.option("--force", is_flag=True, help="write over files that are there")
@options
@as_json
@click.pass_obj
def harness(talk: Talk, /, folder: Path, paper: str, out: Path, options: tuple[str, ...], *, force: bool,
            **chosen: bool) -> int:
    """Make what a harness is built by: labels, cut list, bill of material, drawing.

    Lengths to cut are those described, else the computed way with 40 mm to spare. A drawing too large
    for the paper stands on a larger sheet. Lay a string along the way before you cut, and prove
    polarity with a meter before the first pack is plugged in.
    """
    from hardstand.cli.progress import progress
    from hardstand.description.revisions import history
    from hardstand.description.safe_files import make_folder, write_whole
    from hardstand.views.drawing import Issue
    from hardstand.views.harness_made import made_page
    from hardstand.views.harness_paper import WHAT, harness_files, making_form
    from hardstand.workspace import open_folder

    must_hold_aeroplane(folder)
    wanted = [one for one in WHAT if chosen[one.replace("-", "_")]] or list(WHAT)
    with progress(talk, "reading the aeroplane") as tell:
        workspace = open_folder(folder, options)
        asbuilt, assessment = workspace.as_built(), workspace.assess(tell=tell)
    if not asbuilt.leads:
        raise Refusal("There are no leads to make.", "Add rows of [[lead]] to the description.")
    last = next(iter(reversed(history(workspace.folder))), None)
    issue = Issue(", ".join(options) or "as described", last.name if last else "", last.when[:10] if last else "")
    date = dt.date.fromisoformat(issue.date) if issue.date else dt.datetime.now(dt.UTC).date()
    files = {one: out / f"{one}.pdf" for one in wanted}
    there = [path for path in files.values() if path.exists()]
    if there and not force:
        raise Refusal(f"{there[0]} would be written over.", "Give --force to do so, or --out another folder.",
                      UNREADABLE)
    written, crossings = harness_files(asbuilt, assessment, wanted, PAPERS[paper], issue, date)
    try:
        make_folder(out)
        for one, content in written:
            write_whole(files[one], content)
    except OSError as error:
        raise Refusal(f"{out} cannot be written to: {error.strerror}.", status=UNREADABLE) from None
    form = making_form(assessment.results["harness.making"], [(one, str(files[one])) for one, _ in written], crossings)
    if talk.as_json:
        talk.data(form)
    else:
        talk.page(made_page(form, talk.measure))
    return 0
