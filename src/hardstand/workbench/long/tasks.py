"""The tasks that are long: a better layout found, options compared. Each gives plain data."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hardstand.description.storage import Folder
from hardstand.workbench.long.value import NothingFoundError, Tell
from hardstand.workspace import Workspace, opened

if TYPE_CHECKING:
    from hardstand.changes import AnyChange
    from hardstand.comparison.compare import Placed
    from hardstand.placement_value import Found


def seek_layouts(asked: Mapping[str, Any], tell: Tell, stopped: Callable[[], bool]) -> dict[str, Any]:
    """Layouts for what may move (`free`, all that may if None), so many `alternatives`, with so much `work`.

    Gives `placement`, the form of `place --json`, and `comparison`, that of `compare --json`, with
    the aeroplane as it stands in the first column and a layout in each other one.
    """
    from hardstand.comparison import compare
    from hardstand.comparison.placing import moves
    from hardstand.placement import place
    from hardstand.placement_value import Request

    space = _space(asked)
    request = Request(asked["free"], asked["alternatives"], asked["work"])
    outcome = place(space, request, tell, stopped)
    columns: dict[tuple[str, ...], Found] = {
        (f"layout {number}",): one for number, one in enumerate(outcome.layouts, 1)}
    if columns:
        tell("putting what was found side by side")
    places: dict[tuple[str, ...], Placed] = {(): (space, ())}
    places |= {name: (_with(space, one.changes), moves(one)) for name, one in columns.items()}
    compared = compare(space, list(columns), None, places)
    return {"placement": outcome.as_json(), "comparison": compared.as_json()}


def compare_options(asked: Mapping[str, Any], tell: Tell, stopped: Callable[[], bool]) -> dict[str, Any]:
    """The description and its options side by side, one column for each of `columns`.

    Gives `comparison`, the form of `compare --json`. Raises NothingFoundError where it is stopped.
    """
    from hardstand.comparison import compare

    def told(words: str) -> None:
        if stopped():
            raise NothingFoundError("It was stopped before everything was compared.")
        tell(words)

    columns = [tuple(one) for one in asked["columns"]]
    return {"comparison": compare(_space({**asked, "options": ()}), columns, told).as_json()}


def _space(asked: Mapping[str, Any]) -> Workspace:
    return opened(Folder(Path(asked["folder"])), asked["texts"], asked["options"])


def _with(space: Workspace, changes: Sequence[AnyChange]) -> Workspace:
    texts = {**space.texts, **space.tried(changes)}
    return opened(space.folder, texts, space.options)
