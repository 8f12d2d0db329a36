"""`hardstand draw`: the drawings as files, for the screen and for paper."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from hardstand.cli.drawing_files import MEDIA, File, files_of
from hardstand.cli.folders import MAIN, must_hold_aeroplane
from hardstand.cli.quantities import quantity
from hardstand.cli.refusal import UNREADABLE, Refusal, did_you_mean
from hardstand.cli.shared import as_json, options
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    from hardstand.asbuilt import AsBuilt
    from hardstand.assessment import Assessment


@click.command(cls=Command, section="Ask", short_help="draw it, for the screen and for paper")
@click.argument("words", cls=Argument, nargs=-1, metavar="DIR|NAME",
                help="the aeroplane's folder, the present one if left out; then whole, trays, balance, "
                     "section, items, notes or a tray's id: all of them if none is named")
@click.option("--screen", "screens", multiple=True, type=click.Choice(["wide", "phone"]),
              help="only for a screen of this width")
@click.option("--paper", "papers", multiple=True, type=click.Choice(["a4", "letter"]),
              help="only for this paper: one PDF, and each sheet as SVG")
@click.option("--at", "stations", multiple=True, metavar="STATION",
              help="where to cut a cross-section, aft of the datum; the tightest place if left out")
@click.option("--mark", "marked", multiple=True, metavar="ITEM|NUMBER",
              help="mark an item, or what a finding is about, with distances to its tray's edges")
@click.option("--light", is_flag=True, help="light paper on the screen; as the viewer is set if left out")
@click.option("--dark", is_flag=True, help="dark paper on the screen")
@click.option("--out", type=Path, metavar="DIR", help="where to write; drawings/ in DIR if left out")
@click.option("--force", is_flag=True, help="write over drawings that are there")
@options
@as_json
@click.pass_obj
def draw(talk: Talk, /, words: tuple[str, ...], screens: tuple[str, ...], papers: tuple[str, ...],
         light: bool, dark: bool, out: Path | None, force: bool, options: tuple[str, ...],
         **chosen: tuple[str, ...]) -> int:
    """Draw the aeroplane: plan and elevation, trays, balance, cross-sections, the list of items.

    Each sheet is an SVG that needs nothing else; for paper they are true to the scale in the title
    block, and one PDF holds them all. Print it without fitting it to the page and check the bar. All
    lengths are in mm. Where a name has no room its number stands, and a list explains it.
    """
    from hardstand.views.drawn import drawn_page

    folder, names = _folder_and_names(words)
    media = [*(one for one in MEDIA if one in (*screens, *papers))] or list(MEDIA)
    stations = tuple(quantity(one, "mm", "--at") for one in chosen["stations"])
    issue, asbuilt, assessment = _assessed(talk, folder, options)
    selected = tuple(one for word in chosen["marked"] for one in _marked(word, asbuilt, assessment))
    if light and dark:
        raise Refusal("--light and --dark are one or the other.", "Leave one of them out.")
    ink = "light" if light else "dark" if dark else None
    where = out or folder_of(folder) / "drawings"
    from hardstand.cli.progress import progress
    from hardstand.views.drawing import Wanted

    wanted = Wanted(sections=stations, selected=selected, issue=issue)
    with progress(talk, "drawing") as tell:
        try:
            found = files_of(asbuilt, assessment, wanted, names, media, ink, tell)
        except KeyError as error:
            raise _no_such(error.args[0], asbuilt) from None
        except ValueError as error:
            raise Refusal(f"{error}.".capitalize(), "Give --at another station.", UNREADABLE) from None
    if not found:
        raise Refusal("There is nothing to draw of what was named.",
                      "The notes have sheets of their own on paper only, and none where nothing was found.")
    _write(where, found, force=force)
    form = {"format": 1, "folder": str(where), "files": [one.form() for one in found]}
    if talk.as_json:
        talk.data(form)
    else:
        talk.page(drawn_page(form, talk.measure))
    return 0


def folder_of(folder: Path) -> Path:
    """The folder itself where its main file was named."""
    return folder.parent if folder.name == MAIN and folder.is_file() else folder


def _folder_and_names(words: tuple[str, ...]) -> tuple[Path, tuple[str, ...]]:
    """The first word is a folder, unless it names a drawing, or anything in the aeroplane here."""
    from hardstand.views.drawing import DRAWINGS

    if not words:
        must_hold_aeroplane(Path())
        return Path(), ()
    first = Path(words[0])
    is_name = words[0] in DRAWINGS or (Path(MAIN).exists() and not first.exists())
    if is_name and not (first / MAIN).exists():
        must_hold_aeroplane(Path())
        return Path(), words
    must_hold_aeroplane(first)
    return first, words[1:]


def _assessed(talk: Talk, folder: Path, options: tuple[str, ...]) -> tuple[Any, AsBuilt, Assessment]:
    from hardstand.cli.progress import progress
    from hardstand.description.revisions import history
    from hardstand.views.drawing import Issue
    from hardstand.workspace import open_folder

    with progress(talk, "reading the aeroplane") as tell:
        workspace = open_folder(folder, options)
        assessment = workspace.assess(tell=tell)
    last = next(iter(reversed(history(workspace.folder))), None)
    layout = ", ".join(options) or "as described"
    issue = Issue(layout, last.name if last else "", last.when[:10] if last else "")
    return issue, workspace.as_built(), assessment


def _marked(word: str, asbuilt: AsBuilt, assessment: Assessment) -> tuple[str, ...]:
    """The ids that a word marks: an item, or all that a finding's number is about."""
    items = {item.id for item in asbuilt.items}
    if word in items:
        return (word,)
    if word.isascii() and word.isdigit() and 0 < int(word) <= len(assessment.findings):
        return tuple(assessment.findings[int(word) - 1].about)
    raise Refusal(f"--mark: there is no item and no finding {word}.",
                  did_you_mean(word, items, "`hardstand check` numbers the findings."))


def _no_such(name: str, asbuilt: AsBuilt) -> Refusal:
    from hardstand.views.drawing import DRAWINGS

    known = [*DRAWINGS, *(tray.id for tray in asbuilt.trays)]
    return Refusal(f"There is no drawing and no tray {name}.",
                   did_you_mean(name, known, f"There are {', '.join(known)}."))


def _write(where: Path, found: list[File], *, force: bool) -> None:
    there = [one.path for one in found if (where / one.path).exists()]
    if there and not force:
        more = f" and {len(there) - 1} more" if len(there) > 1 else ""
        raise Refusal(f"{where / there[0]}{more} would be written over.",
                      "Give --force to do so, or --out another folder.", UNREADABLE)
    for one in found:
        path = where / one.path
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(one.content)
