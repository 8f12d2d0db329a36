"""`hardstand demo` and `hardstand new`: an aeroplane to look at, and one to begin."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from hardstand.cli.check import assessed
from hardstand.cli.refusal import UNREADABLE, Refusal
from hardstand.cli.shared import as_json
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

MOMENTS = {"first-layout": "s0", "as-built": "s1", "after-flights": "s2"}
_EXPECTED = "expected.toml"  # it belongs to the tests, not to the aeroplane


@click.command(cls=Command, section="Begin", short_help="lay out the demo aeroplane and check it")
@click.argument("folder", cls=Argument, metavar="DIR", default="tarnwing-20", type=Path,
                help="a new folder; tarnwing-20 if left out")
@click.option("--at", "moment", type=click.Choice(list(MOMENTS)), default="as-built",
              help="at which moment of its life; as-built if left out")
@as_json
@click.pass_obj
def demo(talk: Talk, folder: Path, moment: str) -> int:
    """Lay out an invented aeroplane, the Tarnwing 20, and check it.

    It is a complete aeroplane to read, to change and to break. Nothing is ever overwritten: where
    the folder already holds an aeroplane, that one is checked as it is.
    """
    there = (folder / "aeroplane.toml").exists()
    texts = {} if there else demo_texts(moment)
    if not there:
        lay_out(folder, texts, f"demo aeroplane, {moment}")
    form = assessed(talk, folder, ())
    if talk.as_json:
        talk.data({**form, "folder": str(folder), "files": sorted(texts)})
    else:
        from hardstand.views.begin import laid_out_lines
        from hardstand.views.check import check_page

        talk.page(check_page(form, talk.measure))
        talk.say(laid_out_lines(str(folder), sorted(texts), talk.measure))
    return 1 if form["counts"]["no-go"] else 0


def demo_texts(moment: str) -> dict[str, str]:
    """The files of the demo aeroplane at a moment, by name.

    >>> sorted(demo_texts("as-built"))[0]
    'aeroplane.toml'
    """
    from importlib.resources import files

    return dict(_texts(files("hardstand") / "data" / "demo" / MOMENTS[moment], ""))


def _texts(folder: Traversable, before: str) -> list[tuple[str, str]]:
    found: list[tuple[str, str]] = []
    for one in folder.iterdir():
        if one.is_dir():
            found += _texts(one, f"{before}{one.name}/")
        elif one.name.endswith(".toml") and one.name != _EXPECTED:
            found.append((before + one.name, one.read_text(encoding="utf-8")))
    return found


def lay_out(folder: Path, texts: Mapping[str, str], why: str) -> None:
    """Write an aeroplane's files into a new folder as its first revision; raises Refusal if taken."""
    from hardstand.description.revisions import record
    from hardstand.description.storage import Folder

    if "\0" in str(folder):
        raise Refusal(f"{folder} is no name of a folder.", "Name it with letters, figures and hyphens.")
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        hint = (f"`hardstand check {folder}` checks what is there; or name another folder."
                if (folder / "aeroplane.toml").exists() else "Name a folder that is not there yet.")
        raise Refusal(f"{folder} is already there, and nothing is ever overwritten.", hint, UNREADABLE)
    place = Folder(folder)
    place.write(texts)
    record(place, why)


@click.command(cls=Command, section="Begin", short_help="begin an aeroplane's file, with few questions")
@click.argument("folder", cls=Argument, metavar="DIR", type=Path, help="a new folder")
@click.option("--name", metavar="TEXT", help="the aeroplane's name")
@click.option("--span", metavar="LENGTH", help='in mm, or with a unit: "79 in"')
@click.option("--length", metavar="LENGTH", help="nose tip to nozzle lip")
@click.option("--mark", metavar="TEXT", help="the point from which the CG is measured aft, in words")
@click.option("--mark-at", metavar="X,Y,Z", help="where that point is: aft, right, up of the datum, mm")
@as_json
@click.pass_obj
def new(talk: Talk, folder: Path, name: str | None, span: str | None, length: str | None,
        mark: str | None, mark_at: str | None) -> int:
    """Begin an aeroplane: a commented file that can be read at once and says how to go on.

    What is not given is asked for at a terminal; an empty answer leaves it for later.
    """
    from hardstand.cli.beginning import beginning
    from hardstand.views.begin import laid_out_lines

    answers = {"name": name, "span": span, "length": length, "mark": mark, "mark_at": mark_at}
    if talk.is_asked_by_person and not talk.as_json:
        answers = _asked(answers)
    if not answers["name"]:
        raise Refusal("An aeroplane needs a name.", 'Give it with --name "…".')
    text = beginning(answers["name"], _length_mm(answers["span"]), _length_mm(answers["length"]),
                     answers["mark"] or "", _place_mm(answers["mark_at"]))
    lay_out(folder, {"aeroplane.toml": text}, "begun")
    if talk.as_json:
        talk.data({"format": 1, "folder": str(folder), "files": ["aeroplane.toml"]})
    else:
        talk.page(laid_out_lines(str(folder), ["aeroplane.toml"], talk.measure))
    return 0


_QUESTIONS = {"name": "Name of the aeroplane", "span": "Span in mm", "length": "Length in mm",
              "mark": "Point from which the CG is measured aft (one that you can touch)",
              "mark_at": "Where that point is: x aft, y right, z up of the nose tip, in mm"}


def _asked(answers: dict[str, str | None]) -> dict[str, str | None]:
    """The answers with a person's own for those that were not given."""
    return {key: value if value is not None
            else click.prompt(_QUESTIONS[key], default="", show_default=False, err=True)
            for key, value in answers.items()}


def _length_mm(text: str | None) -> float | None:
    """A length as it was typed, in mm; raises Refusal."""
    from hardstand.standards.units import UnitError, from_text

    if not text or not text.strip():
        return None
    try:
        found = float(text) if _is_number(text) else from_text(text, "mm")
    except UnitError as error:
        raise Refusal(f"{error}.") from None
    if not 0.0 < found <= 20_000.0:
        raise Refusal(f"{text} is no length of a model aeroplane.", "Give it in mm, such as 2000.")
    return found


def _place_mm(text: str | None) -> tuple[float, float, float] | None:
    if not text or not text.strip():
        return None
    words = text.replace(",", " ").replace("[", " ").replace("]", " ").split()
    if len(words) != 3 or not all(map(_is_number, words)):
        raise Refusal(f"{text} is no place.", "Give three numbers in mm, such as 1045,125,-25.")
    x, y, z = map(float, words)
    if max(abs(x), abs(y), abs(z)) > 20_000.0:
        raise Refusal(f"{text} is outside any model aeroplane.", "Give three numbers in mm.")
    return x, y, z


def _is_number(text: Any) -> bool:
    try:
        return abs(float(text)) < 1e9
    except ValueError:
        return False
