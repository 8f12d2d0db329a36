"""What each rule of the balance says when asked: why, formula, limit, source."""

from __future__ import annotations

from hardstand.findings import Rule

PRACTICE = "common practice, no source"
ISO = "ISO 14253-1 for the decision with uncertainty"
WITH_U = "judged with U = 2u, the figure after ±"

RULES: tuple[Rule, ...] = (
    Rule(
        "balance.cg-range",
        "CG inside the designer's range",
        "Ahead of its range the aeroplane may not rotate or flare; behind it, it may not be stable in pitch. "
        "A range belongs to one state, and only there it is judged; the others by their static margin.",
        f"CG = sum(m x) / sum(m) - mark, in aeroplane.cg_range_state; {WITH_U}",
        f"the designer's range; {ISO}",
        "aeroplane.cg_range_mm",
    ),
    Rule(
        "balance.cg-target",
        "CG at the target",
        "A target narrows the range for now, such as for a first flight.",
        "as balance.cg-range, in aeroplane.cg_target_state, judged on the value alone",
        "the builder",
        "aeroplane.cg_target_mm",
        True,
    ),
    Rule(
        "balance.lateral",
        "CG on the centreline",
        "The heavier wing drops first, and most at low speed.",
        f"y = sum(m y) / sum(m), in the worst state that is flown; {WITH_U}",
        f"{PRACTICE}; {ISO}",
        "balance.lateral",
        True,
    ),
    Rule(
        "balance.static-margin",
        "Static margin in every state flown",
        "The static margin is how far the CG is ahead of the neutral point. With little of it the aeroplane "
        "hunts in pitch; with none it diverges.",
        "(x of the neutral point - x of the CG) / mean chord. No-go where the chance that it is under the limit "
        "is near certainty, measure where that chance is above balance.margin-chance. The neutral point is "
        "equally likely anywhere between a tail carried through the body and one with free inner edges; "
        "body, tail efficiency, wing chords and CG add a normal spread",
        f"vortex lattice and slender body; limits {PRACTICE}",
        "balance.static-margin, balance.margin-chance",
        True,
    ),
    Rule(
        "balance.static-margin-target",
        "Static margin for a first flight",
        "A steady aeroplane is easier to trim out; one that is too nose-heavy is hard to rotate and flare.",
        "as balance.static-margin, judged on the value alone",
        PRACTICE,
        "balance.static-margin-target",
        True,
    ),
    Rule(
        "balance.range-doubtful",
        "The stated range agrees with the planform",
        "A slipped digit in a manual, or a range measured from another mark, gives an aeroplane that cannot "
        "be flown.",
        "static margin with the CG at each end of the stated range: doubted where the chance that it is under "
        "its limit at the aft end is over 50 % (no-go over 97.5 %), or where it is over 35 % at the "
        "forward end",
        "vortex lattice; " + PRACTICE,
        "balance.static-margin",
    ),
    Rule(
        "balance.fuel-travel",
        "CG travel as fuel burns",
        "A large travel changes the trim during the flight.",
        "(aftmost - foremost CG from full tanks to fuel.reserve_pct, at 21 fillings in the order of "
        f"emptying, headers last) / mean chord, gear up and gear down; {WITH_U}",
        f"{PRACTICE}; {ISO}",
        "balance.fuel-travel",
        True,
    ),
    Rule(
        "balance.nose-share",
        "Load on the nose wheel",
        "It must steer, and it must come off the ground.",
        f"moments of the weight about the main wheels, worst state with the gear down; {WITH_U}",
        "limit value from memory; " + ISO,
        "balance.nose-share",
        True,
    ),
    Rule(
        "balance.overturn",
        "Overturn angle",
        "The larger it is, the slower the aeroplane must turn on the ground.",
        "atan(height of the CG / its distance from the line nose wheel to main wheel), worst side and "
        f"state; {WITH_U}",
        "textbook definition, limit value from memory; " + ISO,
        "balance.overturn",
        True,
    ),
    Rule(
        "balance.tip-back-spare",
        "Tip-back beyond tail-strike",
        "Where the nozzle touches only after the CG is over the main wheels, it sits down on its tail.",
        "atan(distance of the CG ahead of the main wheels / its height) - tail-strike angle; "
        + WITH_U,
        "textbook rule, value from memory; " + ISO,
        "balance.tip-back-spare",
        True,
    ),
    Rule(
        "balance.weigh-in-mass",
        "Weigh-in agrees with the parts: mass",
        "A difference beyond both uncertainties means that an entry or the weighing is wrong. The slips that "
        "would explain it are ranked by how likely each is if just one of them happened.",
        "|weighed - sum of the parts|, at most the limit and at most 3 u of the difference",
        PRACTICE,
        "balance.weigh-in-mass",
    ),
    Rule(
        "balance.weigh-in-cg",
        "Weigh-in agrees with the parts: CG",
        "As for the mass. A stand on which the aeroplane only tips tells on which side of it the CG is.",
        "|weighed - sum of the parts| of the CG's station, at most the limit and at most 3 u of the "
        "difference; readings count as independent of one another, the contact points of a leg as the "
        "same in every weigh-in, roll as level as the pitch",
        PRACTICE,
        "balance.weigh-in-cg",
    ),
    Rule(
        "balance.weigh-in-unusable",
        "Weigh-ins that cannot be",
        "A weigh-in that contradicts itself says nothing about the aeroplane and must not move its figures.",
        "less than half or more than twice the sum of the parts; scales at one station or two under one leg; "
        "wheels that are up or off in the weighed state; a weight on a stand without a station, or on "
        "the wrong side",
        PRACTICE,
    ),
    Rule(
        "balance.not-weighed",
        "The whole aeroplane is weighed",
        "A sum of parts cannot know what was forgotten.",
        "a [[weighing]] exists",
        PRACTICE,
    ),
    Rule(
        "balance.level",
        "Level while weighing",
        "Off level, the height of the CG moves the answer. A nose raised by 3 degrees or more, to find that "
        "height, is not meant.",
        "error = height of the CG over the axles x tan(pitch)",
        PRACTICE,
        "balance.level",
        True,
    ),
    Rule(
        "balance.stale",
        "Measurements still hold",
        "A measurement of what has since changed proves nothing.",
        "declared value and part now = those when it was taken",
        PRACTICE,
    ),
    Rule(
        "balance.ballast-share",
        "Little ballast",
        "Ballast costs take-off run and landing speed.",
        f"masses of the zone ballast / mass of the lightest state; {WITH_U}",
        f"{PRACTICE}; {ISO}",
        "balance.ballast-share",
        True,
    ),
    Rule(
        "balance.missing",
        "What is not described, or cannot be",
        "What is missing is never silently assumed.",
        "each table that the balance needs is there, and its numbers make an aeroplane",
        PRACTICE,
    ),
    Rule(
        "balance.assumption",
        "Defaults that were used",
        "A default is named, so that it can be replaced.",
        "each default of the neutral point that stands in for what the file does not state",
        PRACTICE,
    ),
    Rule(
        "balance.tank-inside",
        "Inside of a tank derived",
        "The fuel's CG follows the inside of the tank.",
        "the outside shrunk about its middle until it holds the capacity",
        PRACTICE,
        "",
        True,
    ),
)
