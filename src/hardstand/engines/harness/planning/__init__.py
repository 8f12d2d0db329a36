"""Planning: which output feeds and commands what, found as an assignment with constraints.

Method: outputs that are alike form places; a constraint solver gives every plug a place so that
single failures take as little as can be, then with the fewest changes, the shortest leads, and units
and packs loaded alike; each level is proven to be least before the next one. What cannot be had is
told by a smallest set of requirements that contradict. Assumptions: any channel can come out of any
output that its command reaches; packs, buses and the outputs of controllers stay as they are; a lead
that is lost takes what hangs on it whatever the plan is. Limits of validity: currents are declared
ones, leads are straight; a plan found here still has to pass the checks that every aeroplane gets.
"""

from hardstand.engines.harness.planning.editing import changes, ends_of
from hardstand.engines.harness.planning.lessons import lighter
from hardstand.engines.harness.planning.solve import Answer, solve
from hardstand.engines.harness.planning.telling import Left, gains, left, losses, why_none
from hardstand.engines.harness.planning.translation import Translation, translate

__all__ = [
    "Answer",
    "Left",
    "Translation",
    "changes",
    "ends_of",
    "gains",
    "left",
    "lighter",
    "losses",
    "solve",
    "translate",
    "why_none",
]
