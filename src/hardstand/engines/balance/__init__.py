"""Balance: mass, CG and inertia in every state, and how far they can be trusted.

Method: sums of masses and moments over states, with the fuel by level; uncertainty to first order
(checked by Monte Carlo in the tests); weigh-ins by generalised least squares; neutral point by
vortex lattice with a slender body. Assumptions: rigid aeroplane, fuel at rest, small errors; what is
entered of different items is wrong independently (one scale for all of them, or one part fitted
twice, would make errors common: a few per cent of the CG's uncertainty on the demo aeroplane).
Limits of validity: attached flow, low Mach number, controls fixed. Sources stand at each function.
"""

from hardstand.engines.balance.stage import STAGE

__all__ = ["STAGE"]
