"""Drawings as SVG, from an as-built aeroplane and its assessment.

Shapes are recorded in model millimetres with the meaning of their lines (`kinds`), placed on a sheet
at a scale (`shapes.Placement`), lettered there (`labels`, `dimensions`), and written by one backend
(`svg`). A sheet counts in pixels on screen, in millimetres on paper. No figure is computed here: what
is drawn is where things are and what the engines found.
"""

from hardstand.views.drawing.catalogue import DRAWINGS, Drawing, Wanted, draw
from hardstand.views.drawing.title_block import Issue

__all__ = ["DRAWINGS", "Drawing", "Issue", "Wanted", "draw"]
