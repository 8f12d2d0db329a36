"""`hardstand parts`: searching the catalogue and the builder's own parts."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, cast, get_args

import click

from hardstand.cli.refusal import Refusal, did_you_mean
from hardstand.cli.shared import as_json, units
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    from hardstand.description.catalogue import Catalogue, Resolved
    from hardstand.description.parts import PartKind
    from hardstand.standards.units import System


@click.command(cls=Command, section="Look up", short_help="search the parts by words")
@click.argument("words", cls=Argument, nargs=-1,
                help="words that the part's id, name, kind or note must hold")
@click.option("--kind", metavar="KIND", help="only parts of this kind, such as servo or pack")
@click.option("--in", "folder", metavar="DIR", default=".", type=Path,
              help="an aeroplane's folder, whose own parts are searched too")
@units
@as_json
@click.pass_obj
def parts(talk: Talk, words: tuple[str, ...], kind: str | None, folder: Path, units: System) -> int:
    """Search the generic parts, and the builder's own in the folder's parts/*.toml.

    Their figures are typical of the class, not of any one product: measure your own. With one
    part found, all that is known of it is shown.
    """
    from hardstand.description.catalogue import search

    known = _known_kind(kind)
    catalogue = own_catalogue(talk, folder)
    found = search(" ".join(words), known, catalogue.parts())
    exact = [one for one in found if [one.id] == list(words)]
    forms = [part_form(catalogue.resolve(one.id)) for one in exact or found]
    if talk.as_json:
        talk.data({"format": 1, "parts": forms})
    elif not forms:
        raise Refusal(f"No part holds the words {' '.join(words)}.", did_you_mean(
            "-".join(words), catalogue.ids, "Fewer words find more; --kind lists a whole kind."), 0)
    else:
        from hardstand.views.parts import part_page, parts_page

        talk.page(part_page(forms[0], talk.measure, units) if len(forms) == 1
                  else parts_page(forms, talk.measure, talk.wide, units))
    return 0


def _known_kind(kind: str | None) -> PartKind | None:
    from hardstand.description.parts import PartKind

    kinds = get_args(PartKind)
    if kind is not None and kind not in kinds:
        raise Refusal(f"There is no kind of part {kind}.", did_you_mean(
            kind, kinds, f"The kinds are {', '.join(kinds)}."))
    return cast("PartKind | None", kind)


def own_catalogue(talk: Talk, folder: Path) -> Catalogue:
    """The catalogue with the folder's own parts, or without them where it cannot be read."""
    from hardstand.cli.folders import MAIN
    from hardstand.description.catalogue import Catalogue
    from hardstand.description.problems import UnreadableError
    from hardstand.views.trouble import trouble_page

    if not (folder / MAIN).is_file():
        return Catalogue()
    from hardstand.workspace import open_folder

    try:
        description = open_folder(folder).read.description
    except UnreadableError:
        talk.say(trouble_page("The folder's own parts are left out, for it cannot be read.",
                              "`hardstand check` says why.", talk.measure))
        return Catalogue()
    return Catalogue(description.part, description.port)


def part_form(resolved: Resolved) -> dict[str, Any]:
    """A part with everything that it extends, as plain data: fields that are set, and ports."""
    part = resolved.part
    fields = part.model_dump(exclude_none=True, exclude_defaults=True, mode="json")
    form = {"id": resolved.id, "name": part.name, "kind": part.kind,
            "own": not resolved.generic[0], "size_mm": list(part.size_mm or ()),
            "mass_g": part.mass_g, "note": part.note}
    ports = [one.model_dump(exclude_none=True, exclude={"part"}, mode="json")
             for one in resolved.ports]
    return {**form, **{key: value for key, value in fields.items() if key not in form},
            "ports": ports}
