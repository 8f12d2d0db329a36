"""A template in the form that `--json` prints, its files named but not held."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from hardstand.views.drawing.paper import Paper
from hardstand.views.template.form import sheet_form
from hardstand.views.template.tiles import tiling
from hardstand.views.template.value import Template


def template_form(made: Template, paper: Paper, files: Sequence[tuple[str, str]]) -> dict[str, Any]:
    """The template as plain data; `files` are pairs of format and path."""
    left, top, right, bottom = sheet_form(paper).field
    spread = tiling(made.bounds(), (right - left, bottom - top))
    return {
        "format": 1,
        "tray": made.tray,
        "name": made.name,
        "size_mm": list(made.size_mm),
        "thickness_mm": made.thickness_mm,
        "kerf_mm": made.kerf_mm,
        "paper": paper,
        "tiles": len(spread.tiles),
        "openings": [
            {"id": one.id, "purpose": one.purpose, "cut": one.cut, "at_mm": list(one.at), "leads": one.leads,
             "bundle_mm": one.bundle_mm, "needed_mm": one.needed_mm, "too_narrow": one.too_narrow}
            for one in made.openings
        ],
        "remarks": list(made.remarks),
        "files": [{"format": kind, "path": path} for kind, path in files],
    }  # fmt: skip
