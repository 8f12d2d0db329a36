"""The limits that findings are judged against: a default each, its source, and what it protects.

The builder may set another by `[[limit]]` with the same id. Sources marked "common practice" are
habits of the trade with no published source behind them.
"""

from __future__ import annotations

from hardstand.findings import Limit

PRACTICE = "common practice, no source"

DEFAULTS: tuple[Limit, ...] = (
    Limit(
        "balance.lateral",
        "mm",
        low=-3.0,
        high=3.0,
        source=PRACTICE,
        meaning="sideways distance of the CG from the centreline",
    ),
    Limit(
        "balance.static-margin",
        "pct",
        low=3.0,
        source=PRACTICE,
        meaning="static margin in every state that is flown",
    ),
    Limit(
        "balance.static-margin-target",
        "pct",
        low=8.0,
        high=12.0,
        source=PRACTICE,
        target=True,
        meaning="static margin wished for on a first flight, aftmost state",
    ),
    Limit(
        "balance.margin-chance",
        "pct",
        high=2.5,
        source=PRACTICE,
        target=True,
        meaning="chance that the static margin is under its limit",
    ),
    Limit(
        "balance.fuel-travel",
        "pct",
        high=2.0,
        source=PRACTICE,
        meaning="travel of the CG from full to reserve, of the MAC",
    ),
    Limit(
        "balance.nose-share",
        "pct",
        low=8.0,
        high=15.0,
        source="value from memory",
        meaning="share of the weight on the nose wheel",
    ),
    Limit(
        "balance.overturn",
        "deg",
        high=63.0,
        source="value from memory",
        meaning="angle at which it tips over sideways on its wheels",
    ),
    Limit(
        "balance.tip-back-spare",
        "deg",
        low=0.0,
        source="value from memory",
        meaning="tip-back angle beyond the tail-strike angle",
    ),
    Limit(
        "balance.weigh-in-mass",
        "g",
        high=40.0,
        source=PRACTICE,
        meaning="weigh-in against build-up, mass (also never over 3 sigma)",
    ),
    Limit(
        "balance.weigh-in-cg",
        "mm",
        high=4.0,
        source=PRACTICE,
        meaning="weigh-in against build-up, CG (also never over 3 sigma)",
    ),
    Limit("balance.level", "deg", high=0.2, source=PRACTICE, meaning="level while weighing"),
    Limit(
        "balance.ballast-share",
        "pct",
        high=3.0,
        source=PRACTICE,
        meaning="ballast as a share of the aeroplane's mass",
    ),
    Limit("fit.box-gap", "mm", low=2.0, source=PRACTICE, meaning="box to box"),
    Limit(
        "fit.structure-gap",
        "mm",
        low=3.0,
        source=PRACTICE,
        meaning="box to tub, shell or structure",
    ),
    Limit(
        "fit.moving-gap", "mm", low=10.0, source=PRACTICE, meaning="anything to a part that moves"
    ),
    Limit(
        "fit.plug-room",
        "mm",
        low=0.0,
        source=PRACTICE,
        meaning="room for plug and bend of each port in use",
    ),
    Limit(
        "fit.tray-edge", "mm", low=0.0, source=PRACTICE, meaning="base of a box to its tray's edge"
    ),
    Limit(
        "fit.hole-gap",
        "mm",
        low=0.0,
        source=PRACTICE,
        meaning="base of a box to an opening kept free",
    ),
    Limit(
        "fit.pass-through",
        "mm",
        low=0.0,
        source="NFPA 70 (National Electrical Code), chapter 9, table 1; value from memory",
        meaning="an opening's width beyond that of which its leads' wires fill 40 %",
    ),
    Limit(
        "fit.height",
        "mm",
        low=0.0,
        source=PRACTICE,
        meaning="top of a box to the height that is free above its tray",
    ),
    Limit(
        "fit.hot-gap",
        "mm",
        low=100.0,
        source=PRACTICE,
        meaning="plastic, wire or pack to a hot part without a shield",
    ),
    Limit("fit.fuel-gap", "mm", low=10.0, source=PRACTICE, meaning="fuel tank to electrics"),
    Limit(
        "fit.pack-slides-out",
        "mm",
        low=0.0,
        source=PRACTICE,
        meaning="room along a pack's way out to what stays in place",
    ),
    Limit(
        "fit.pack-opening",
        "mm",
        low=0.0,
        source=PRACTICE,
        meaning="pack to the edge of the hatch it comes out of",
    ),
    Limit(
        "fit.reach",
        "mm",
        low=0.0,
        source=PRACTICE,
        meaning="middle of what must be reached, within its opening",
    ),
    Limit(
        "fit.view",
        "mm",
        low=0.0,
        source=PRACTICE,
        meaning="face to be seen, within its opening and clear of other items",
    ),
    Limit(
        "fit.gyro-alignment",
        "deg",
        high=3.0,
        source=PRACTICE,
        meaning="gyro axis against the aeroplane's (5 % coupling at 3 degrees)",
    ),
    Limit(
        "fit.gyro-centreline",
        "mm",
        high=60.0,
        source=PRACTICE,
        target=True,
        meaning="gyro from the centreline: a wish, not a need",
    ),
    Limit(
        "fit.gyro-cg",
        "mm",
        high=100.0,
        source=PRACTICE,
        meaning="gyro with accelerometers from the CG",
    ),
    Limit("fit.gyro-engine", "mm", low=150.0, source=PRACTICE, meaning="gyro to turbine and pump"),
    Limit(
        "fit.aerial-apart",
        "mm",
        low=150.0,
        source=PRACTICE,
        meaning="aerials of two receivers apart",
    ),
    Limit(
        "fit.aerial-angle",
        "deg",
        low=70.0,
        source=PRACTICE,
        meaning="angle between a receiver's aerials",
    ),
    Limit(
        "fit.aerial-engine", "mm", low=150.0, source=PRACTICE, meaning="aerial to pump or turbine"
    ),
    Limit(
        "fit.aerial-controller",
        "mm",
        low=100.0,
        source=PRACTICE,
        meaning="aerial to the turbine's control unit",
    ),
    Limit(
        "fit.aerial-carbon", "mm", low=50.0, source=PRACTICE, meaning="aerial to carbon or metal"
    ),
    Limit(
        "fit.aerial-lead",
        "mm",
        low=50.0,
        source=PRACTICE,
        meaning="aerial to a lead that carries high current",
    ),
    Limit(
        "harness.wire-load",
        "pct",
        high=100.0,
        source=PRACTICE,
        meaning="lasting current of a lead, of the 10 A/mm2 that its wire carries",
    ),
    Limit(
        "harness.pin-load",
        "pct",
        high=100.0,
        source=PRACTICE,
        meaning="lasting current of a pin, of what it is rated for",
    ),
    Limit(
        "harness.pin-peak",
        "pct",
        high=250.0,
        source=PRACTICE,
        meaning="highest current of a pin for a short time, of what it is rated for",
    ),
    Limit(
        "harness.rail-load",
        "pct",
        high=100.0,
        source=PRACTICE,
        meaning="lasting current of a unit's rail, of what the unit is rated for",
    ),
    Limit(
        "harness.spare-length",
        "mm",
        low=40.0,
        source=PRACTICE,
        meaning="length of a lead to spare over the straight line between its ends",
    ),
    Limit(
        "harness.routed-spare",
        "mm",
        low=40.0,
        high=120.0,
        source=PRACTICE,
        meaning="length of a lead to spare over its computed way: service loop and strain relief",
    ),
)
BY_ID: dict[str, Limit] = {limit.id: limit for limit in DEFAULTS}
