"""Placement: the aeroplane as a layout problem, and layouts back as changes to the description.

Method: each free item's box and plug rooms become rectangles on whole millimetres, grown by what
its place and size are known to; all that stays where it is becomes rectangles that the parts of each
item may not enter, cut at that part's own height from the solids of the clearance checks, with the
limit of the rule that holds between the two and the uncertainty of both; the skin of the bay is cut
in the same way. What is wished for is stated in millimetres of thin lead. Assumptions: items stand
level; leads run along the axes from port to port, by way of the holes they name. Limits of validity:
items on two trays are kept apart only by the checks in three dimensions that every layout has to
pass afterwards; leads between straight ends near aerials likewise.
"""

from hardstand.engines.fit.placement.binding import Binding, bindings
from hardstand.engines.fit.placement.breakdown import CostPart, breakdown, cg_mm
from hardstand.engines.fit.placement.differing import differing
from hardstand.engines.fit.placement.free import Freedom, NotFreeError, freedoms
from hardstand.engines.fit.placement.lessons import Lessons, learned
from hardstand.engines.fit.placement.reach_of_leads import Short, short_leads
from hardstand.engines.fit.placement.spots import Place, places
from hardstand.engines.fit.placement.translate import Translation, translate
from hardstand.engines.fit.placement.wording import easing_words, named, requirement_words

__all__ = [
    "Binding",
    "CostPart",
    "Freedom",
    "Lessons",
    "NotFreeError",
    "Place",
    "Short",
    "Translation",
    "bindings",
    "breakdown",
    "cg_mm",
    "differing",
    "easing_words",
    "freedoms",
    "learned",
    "named",
    "places",
    "requirement_words",
    "short_leads",
    "translate",
]
