"""An aeroplane's folder as the outside works on it: read, assess, change.

The command line and the pages use this one way, so that an edit, a remedy and an option all meet
the same checks: the old value must still stand, the result must be readable, and the write is
whole or not at all.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hardstand.changes import AnyChange, Change, parse_address
from hardstand.description.raw import Raw, parse
from hardstand.description.read import Read, read_texts
from hardstand.description.revisions import Edited, edit
from hardstand.description.storage import Folder
from hardstand.description.write import apply_to_texts
from hardstand.routing import routed

if TYPE_CHECKING:
    from hardstand.asbuilt import AsBuilt
    from hardstand.assessment import Assessment, Memory

Tell = Callable[[str], None]


@dataclass(frozen=True)
class Workspace:
    """One folder with its description as it was read, options laid over."""

    folder: Folder
    texts: Mapping[str, str]
    read: Read

    @property
    def options(self) -> tuple[str, ...]:
        """The options laid over, in the order named."""
        return self.read.options

    @property
    def base(self) -> Raw:
        """The tables as they stand in the files, without any option."""
        return parse(self.texts)[0]

    def as_built(self) -> AsBuilt:
        """Description, options and measurements laid over one another."""
        from hardstand.asbuilt import build

        return build(self.read.description, self.read.set_aside)

    def assess(self, memory: Memory | None = None, tell: Tell | None = None) -> Assessment:
        """Run every stage; `tell` hears the name of each step before it runs."""
        from hardstand.assessment import assess
        from hardstand.stages import stages

        return assess(self.as_built(), stages(), memory, tell)

    def value_at(self, address: str) -> Any:
        """What stands at an address with the options laid over; None where nothing does."""
        where = parse_address(address)
        raw = self.read.raw
        if where.id is None:
            table = raw.singles.get(where.kind)
        else:
            rows = raw.rows.get(where.kind, [])
            table = next((row for row in rows if row.get("id") == where.id), None)
        return table.get(where.field) if isinstance(table, dict) else None

    def tried(self, changes: Sequence[AnyChange]) -> dict[str, str]:
        """The files that changes would alter, with their new texts; nothing is written.

        Raises StaleChange or NotWritableError where a change cannot be made, and UnreadableError
        where the aeroplane could not be read after it.
        """
        new = apply_to_texts(self.texts, self._routed(changes))
        read_texts({**self.texts, **new}, self.options)
        return new

    def change(self, changes: Sequence[AnyChange], why: str) -> Edited:
        """Make changes in the files as one revision; raises as `tried` does, with nothing written."""
        self.tried(changes)
        return edit(self.folder, self._routed(changes), why)

    def _routed(self, changes: Sequence[AnyChange]) -> list[AnyChange]:
        return routed(changes, self.base, self.options)


def open_folder(path: Path, options: Sequence[str] = ()) -> Workspace:
    """Read the aeroplane in a folder; raises `UnreadableError` with every problem found."""
    folder = Folder(path)
    return opened(folder, folder.texts(), options)


def opened(folder: Folder, texts: Mapping[str, str], options: Sequence[str] = ()) -> Workspace:
    """The same for a folder whose texts have just been read."""
    return Workspace(folder, texts, read_texts(texts, options))


def set_field(workspace: Workspace, address: str, new: Any) -> Change:
    """The change that puts a value at an address, expecting what stands there now."""
    return Change(address, workspace.value_at(address), new)
