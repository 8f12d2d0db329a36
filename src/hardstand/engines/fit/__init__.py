"""Fit: whether everything aboard has room, and what stands in the way.

Method: every item, plug, tray and keep-out as convex solids (boxes, true cylinders, convex pieces);
signed distances between them with a proof of each; limits judged with the expanded uncertainty, which
follows the places and sizes to first order. Assumptions: boxes stand for the equipment; leads need
their plug and one bend at each face in use and are otherwise free; the aeroplane is rigid. Limits of
validity: errors small against the sizes; skins straight between stations; leads straight from port to
port where they are held against aerials, until routes are known. Sources stand at each function.
"""

from hardstand.engines.fit.stage import STAGE

__all__ = ["STAGE"]
