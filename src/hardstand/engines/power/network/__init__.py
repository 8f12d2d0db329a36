"""The direct-current network by itself: what every node and lead has, at rest, in flight, in failure.

`Builder` or `network` makes a network of named `elements`; `solve` solves it for many cases at once,
`fly` runs its packs down over a `profile`, `sweep` lets everything fail once. Method: sums of currents
at the nodes, Newton's method, an elimination laid down once and carried out on arrays over the cases.

Assumptions: at rest in every case (no inductance, no capacitance: edges shorter than some
milliseconds are not in it); one ground; the voltage of a pack under load is its open-circuit voltage
less current times one resistance. Limits of validity: voltages from 0 to some 60 V, resistances from
a microohm up. Every result says how well its currents balance.
"""
