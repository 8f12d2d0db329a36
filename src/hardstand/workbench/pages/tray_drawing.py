"""The drawing of the trays' page, made when it is first asked for: some answers leave it out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from markupsafe import Markup

from hardstand.description.places import Tray
from hardstand.workbench.asked import Asked
from hardstand.workbench.drawn.inline import inline
from hardstand.workbench.drawn.kept import Drawings
from hardstand.workbench.drawn.trays import draw_trays, set_trays

WIDTH = 960.0
_DRAWINGS = Drawings()


class TrayDrawing:
    """Trays with one item selected; `handles` are the addresses of what can be moved."""

    def __init__(self, asked: Asked, trays: Sequence[Tray], selected: str, handles: Sequence[str]) -> None:
        self._held, self._selected, self._handles = asked.held, selected, handles
        self._laid = set_trays(self._held.asbuilt, self._held.assessment, trays, WIDTH)

    @property
    def markup(self) -> Markup:
        """The drawing."""
        held, ids = self._held, tuple(one.id for one in self._laid.trays)
        sheet = _DRAWINGS.get_or(
            (held.digest, held.workspace.options, ids, self._selected),
            lambda: draw_trays(held.asbuilt, held.assessment, self._laid,
                               (self._selected,) if self._selected else ()))  # fmt: skip
        return inline(sheet, "trays", self._handles)

    @property
    def scale(self) -> float:
        """Px of the drawing to a mm."""
        return self._laid.scale

    @property
    def zones(self) -> Mapping[int, str]:
        """The zone of every numbered finding about these trays."""
        return self._laid.zones(self._held.asbuilt, self._held.assessment)
