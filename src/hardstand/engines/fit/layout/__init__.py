"""Layout: where the items on the trays should stand.

Method: plan rectangles on a 1 mm grid with heights (2.5 dimensions), quarter turns, exact outlines.
First layouts are built item by item; annealing of many layouts at once and rebuilding improve them;
the proof is a mixed-integer relaxation tightened where it is violated; what cannot be had at all is
decided by a constraint solver. Assumptions: boxes and plug rooms are rectangles along the axes;
leads are counted along the axes from port to port. Limits of validity: a layout found here still
has to pass the clearance checks in three dimensions.
"""

from hardstand.engines.fit.layout.alternatives import Alternative, alternatives
from hardstand.engines.fit.layout.infeasible import Contradiction, contradiction
from hardstand.engines.fit.layout.solve import Answer, Progress, solve

__all__ = [
    "Alternative",
    "Answer",
    "Contradiction",
    "Progress",
    "alternatives",
    "contradiction",
    "solve",
]
