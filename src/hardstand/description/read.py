"""Read a description: the files' texts in, one frozen `Description` or all problems at once out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from hardstand.description.addresses import address_problems
from hardstand.description.aliases import names_of, present_address, present_id
from hardstand.description.catalogue import Catalogue, generic_ids
from hardstand.description.ends import Ports, end_problems
from hardstand.description.former_ids import former_problems
from hardstand.description.model import Description
from hardstand.description.option_rows import unlaid_problems
from hardstand.description.options import lay_options
from hardstand.description.problems import Problem, UnreadableError
from hardstand.description.raw import MAIN, Raw, parse
from hardstand.description.references import reference_problems
from hardstand.description.set_aside import SetAside, set_aside
from hardstand.description.storage import Folder
from hardstand.description.validated import validated
from hardstand.description.whole import whole_problems


@dataclass(frozen=True)
class Read:
    """A description that was read, with the raw tables behind it (for line numbers) and its texts.

    `set_aside` names the rows that do not apply with these options; description and raw have none of
    them.
    """

    description: Description
    raw: Raw
    options: tuple[str, ...] = ()
    set_aside: tuple[SetAside, ...] = ()

    def ids_taken(self, table: str) -> set[str]:
        """The ids that a new row of a table cannot have: those of the rows set aside are taken too."""
        aside = {one.id for one in self.set_aside if one.table == table}
        return aside | {one.id for one in getattr(self.description, table)}


def read_folder(path: Path, options: Sequence[str] = ()) -> Read:
    """Read the aeroplane in a folder; raises `UnreadableError` with every problem found."""
    return read_texts(Folder(path).texts(), options)


def read_texts(texts: Mapping[str, str], options: Sequence[str] = ()) -> Read:
    """Read the aeroplane from its files' texts (name → text), with the named options laid over.

    Raises `UnreadableError` with every problem that could be found in one go: a broken file, table
    or row hides nothing that can be judged without it, and is not told of twice.
    """
    base, problems = parse(texts)
    if MAIN not in texts:
        problems.append(_no_main())
    raw = base.copied() if base.rows.get("option") or options else base
    problems += lay_options(raw, options)
    aside = set_aside(raw, base, options)
    read = validated(raw)
    problems += read.problems
    description = under_present_ids(Description.model_construct(**read.pieces))
    references = list(reference_problems(raw, generic_ids()))
    problems += references
    faulty = read.faulty | {one.address.partition(".")[0] for one in references}
    problems += whole_problems(description, raw, faulty, read.numbers)
    catalogue = Catalogue(description.part, description.port)
    sure = not faulty & {"part", "port"}
    problems += end_problems(raw, Ports(catalogue, raw.rows.get("item", []), sure=sure))
    problems += address_problems(description, raw, read.numbers)
    problems += former_problems(raw)
    problems += unlaid_problems(base, options, catalogue, faulty)
    if problems:
        raise UnreadableError(_in_order(problems))
    return Read(description, raw, tuple(options), aside)


def under_present_ids(description: Description) -> Description:
    """The description with every measurement at the id that its row has now."""
    names = names_of(description.alias)
    if not names:
        return description
    found = tuple(one.model_copy(update={"address": present_address(one.address, names),
                                         "part": present_id("part", one.part, names)})
                  for one in description.measurement)
    return description.model_copy(update={"measurement": found})


def _no_main() -> Problem:
    return Problem(MAIN, None, "", "there is no aeroplane.toml in this folder", "", "",
                   "make one with `hardstand new DIR`, or `hardstand demo DIR` to look at one")


def _in_order(problems: Iterable[Problem]) -> list[Problem]:
    """Problems as one reads them: by file, the main one first, then by line; each once."""
    return sorted(dict.fromkeys(problems),
                  key=lambda one: (one.file != MAIN, one.file, one.line or 0))
