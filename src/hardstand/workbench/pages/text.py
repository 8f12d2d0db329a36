"""The page of a file's text: to be edited as text, with what is wrong at its lines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from hardstand.description.problems import Problem
from hardstand.description.safe_files import sha256_of
from hardstand.description.storage import Folder
from hardstand.views.notice import NOTICE
from hardstand.workbench.asked import Asked, NoSuchPageError
from hardstand.workbench.bench import Unread
from hardstand.workbench.outcome import Outcome
from hardstand.workbench.preferences import Preferences

MAIN = "aeroplane.toml"


@dataclass(frozen=True)
class TextPage:
    """One file's text with its digest, and the problems of it. It needs no readable aeroplane.

    `text` is what was typed where that was refused; `sha256` is of what the disk holds.
    """

    files: Sequence[str]
    file: str
    text: str
    sha256: str
    lines: Sequence[tuple[int, bool]]
    problems: Sequence[Problem]
    line: int | None
    address: str
    revision: str
    aeroplane: str
    outcome: Outcome | None
    preferences: Preferences
    notice: str = NOTICE

    @property
    def heading(self) -> str:
        """What the title block says."""
        return self.file


def text(asked: Asked) -> TextPage:
    """What the page of a file shows."""
    now = asked.bench.now
    texts: Mapping[str, str] = asked.bench.now_texts()
    file = asked.query.get("file", MAIN)
    if file not in texts:
        raise NoSuchPageError(f"There is no file {file} in this folder.",
                              f"There is {', '.join(sorted(texts)) or 'none'}.")  # fmt: skip
    outcome = asked.outcome
    refused = outcome is not None and not outcome.made
    shown = asked.typed.get("text", texts[file]) if refused else texts[file]
    problems = outcome.problems if outcome and refused else getattr(now, "problems", ())
    here = {one.line for one in problems if one.file == file}
    # where it was refused because the file is another one now, the digest that was shown stays
    sha256 = asked.typed.get("sha256", "") if refused else sha256_of(texts[file].encode())
    wanted = asked.query.get("line", "")
    return TextPage(
        sorted(texts), file, shown, sha256,
        [(number, number in here) for number in range(1, shown.count("\n") + 2)], problems,
        int(wanted) if wanted.isascii() and wanted.isdigit() else None, asked.address, now.revision,
        named(asked.bench.folder) if isinstance(now, Unread) else now.form["aeroplane"], outcome,
        asked.preferences,
    )  # fmt: skip


def named(folder: Folder) -> str:
    """What to call an aeroplane that cannot be read: its folder's name."""
    return folder.path.resolve().name
