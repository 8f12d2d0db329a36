"""The harness engine: which pin is joined to which, and what is wrong with it.

It answers what feeds what, which channel moves what, and where a lead, a plug or a pole is wrong:
from ports, parts and leads a netlist at pin level, from that the supplies and the plan of channels,
and from these the rules. Lengths are held against the straight line between ports, which no route is
shorter than. Assumed: a lead has the plugs that fit its ports unless it says otherwise, and a port
does what is usual of its kind of part. Currents are sums of declared ones, worst case, not those of a
solved network. Sources: common practice, as each rule names it.
"""

from hardstand.engines.harness.stage import STAGE

__all__ = ["STAGE"]
