"""Drawings as SVG, from an as-built aeroplane and its assessment.

Shapes are recorded in model millimetres with the meaning of their lines (`kinds`), placed on a sheet
at a scale (`shapes.Placement`), lettered there (`labels`, `dimensions`), and written by one backend
(`svg`). A sheet counts in pixels on screen, in millimetres on paper. No figure is computed here: what
is drawn is where things are and what the engines found.
"""

from hardstand.views.drawing.catalogue import DRAWINGS, Drawing, draw
from hardstand.views.drawing.sheet_set import Planned, sheet_set
from hardstand.views.drawing.title_block import Issue
from hardstand.views.drawing.wanted import Wanted

__all__ = ["DRAWINGS", "Drawing", "Issue", "Planned", "Wanted", "draw", "sheet_set"]
