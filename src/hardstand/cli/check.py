"""`hardstand check`: what was found, how far each stage got, the verdict."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from hardstand.cli.shared import as_json, folder, options, units
from hardstand.cli.sheet import Command
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    from hardstand.description.storage import Folder
    from hardstand.standards.units import System


@click.command(cls=Command, section="Ask", short_help="say what is wrong, and what is not assessed")
@folder
@options
@units
@click.option("--anew", is_flag=True, help="assess everything again; remember and record nothing")
@as_json
@click.pass_obj
def check(talk: Talk, folder: Path, options: tuple[str, ...], units: System, anew: bool) -> int:
    """Check an aeroplane: findings with the worst first, one line for each stage, the verdict.

    A no-go must not fly, or must not be powered, like this. Measure: only a measurement can decide.
    A caution is what a competent builder would want to know before going on; a note is worth
    knowing. A remedy is computed and says what it costs elsewhere; `hardstand apply NUMBER` makes it.

    Exit status 0 without a no-go, 1 with one that is not accepted, 2 if the folder can't be read.
    """
    form = assessed(talk, folder, options, anew=anew)
    if talk.as_json:
        talk.data(form)
    else:
        from hardstand.views.check import check_page

        talk.page(check_page(form, talk.measure, units))
    return 1 if form["counts"]["no-go"] else 0


def assessed(talk: Talk, folder: Path, options: Sequence[str], *, anew: bool = False) -> dict[str, Any]:
    """The assessment's form: as remembered where nothing has changed, else computed and remembered.

    `anew` computes it whatever is remembered, and leaves nothing behind. Raises UnreadableError.
    """
    from hardstand import remembered
    from hardstand.cli.folders import open_at

    place = open_at(folder)
    texts = place.texts()
    key = remembered.key_of(texts, options)
    form = None if anew else remembered.recall(place.path, key)
    if form is None:
        from hardstand.cli.progress import progress

        with progress(talk, "reading the aeroplane") as tell:
            from hardstand.views.json_form import assessment_form
            from hardstand.workspace import opened

            workspace = opened(place, texts, options)
            form = assessment_form(workspace.assess(tell=tell), options)
        if not anew:
            _keep(place, key, form)
    return form


def _keep(place: Folder, key: str, form: dict[str, Any]) -> None:
    """Remember an assessment, and make an edit from outside a revision now that it is seen."""
    from hardstand import remembered
    from hardstand.description.revisions import record

    remembered.remember(place.path, key, form)
    record(place)
