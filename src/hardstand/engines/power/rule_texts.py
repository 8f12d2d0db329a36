"""What each rule of the power stage says when asked: why, formula, limit, source."""

from __future__ import annotations

from hardstand.findings import Rule

PRACTICE = "common practice, no source"
ISO = "ISO 14253-1 for the decision with uncertainty"
_SOLVED = ("network of packs, leads, plugs, regulators and loads solved at the worst moment: sums of "
           "currents at its nodes; packs worn (1.5), cold (5 degrees C), at 30 %; judged with U = 2u")

_JUDGED: tuple[tuple[str, str, str, str], ...] = (
    ("rail", "Volts left on one pack at the worst moment",
     ("When one pack is gone, the other carries the worst moment alone; a rail that falls slows every "
      "servo and lets receivers restart. No-go below the limit."),
     f"V = min(V_set, V_open - I x R - V_drop); {_SOLVED}"),
    ("reset-headroom", "A volt above every reset",
     "A receiver or servo that restarts in flight is not steered for seconds. No-go.",
     f"volts at the item less the voltage at which it resets; {_SOLVED}"),
    ("low-headroom", "No unit below its rating",
     "Below what a unit is rated for it may stop or forget where it was. Caution.",
     f"volts at the item less the least that it is rated for; {_SOLVED}"),
    ("lead-drop", "Little drop in a servo's lead",
     ("What drops in the lead is lacking as torque at the surface, just when most is asked. Caution; "
      "torque itself is judged with the hinge moments."),
     "I_stall x 2 x length x resistance per metre of the wire, contacts apart; judged with U = 2u"),
    ("feed-drop", "Little drop on the way to units",
     ("What drops in the lead of a motor or a unit is power that heats the lead instead. Caution; the "
      "volts of units are judged by power.low-headroom and power.reset-headroom."),
     "greatest current, any single failure counted, x 2 x length x resistance per metre; U = 2u"),
    ("wire-warmth", "Wire that stays cool",
     ("Copper that stays warmer than its insulation stands softens it, until wires touch. The limit is "
      "that of the weakest usual insulation (PVC); set your own where all leads are of better. No-go "
      "where it happens without a failure, caution where a single failure brings it about. Short "
      "circuits are left out: a fuse is the answer to them. Leads that harness.wire-load tells of are "
      "not told again."),
     ("heat of the bundle's wires, I^2 R with warm copper, = 17 W/m2K x surface of the bundle x rise "
      "over 45 degrees C; I the greatest that lasts 10 s or more; U = 2u")),
    ("contact-load", "Plugs that stand the lasting current",
     ("A plug beyond its class heats, loses its spring and lets go. No-go. Plugs with a rating of "
      "their own are judged by harness.pin-load."),
     "solved current of the busiest minute, one pack alone / current of the plug's class x 100 %"),
    ("regulator-heat", "Regulators that stay cool",
     "A linear regulator turns what it takes off into heat; too hot, it shuts down. Caution.",
     "P = (V_in - V_set) x I, busiest minute, one full pack alone; judged with U = 2u"),
    ("capacity-difference", "Packs alike on one rail",
     "The smaller of two packs is empty first, unseen, and is then no reserve. Caution.",
     "1 - smaller / larger capacity"),
    ("charge-used", "A flight from one pack alone",
     ("Each pack must be able to finish a whole flight alone, with what nobody should take out of it "
      "left in it. No-go."),
     "sum of mean currents x time over the phases / (0.9 x capacity of the label)"),
)  # fmt: skip
_PLAIN: tuple[tuple[str, str, str, str, bool], ...] = (
    ("single-failure", "No failure of voltage takes an axis or the stop",
     ("A short circuit, a stuck cell or a broken path may pull a rail below what keeps its servos "
      "alive. No-go where pitch or the ways to stop the turbine are lost, caution where roll alone "
      "is. What goes by position in the wiring alone is told by harness.single-failure."),
     "every element of the solved network open, shorted (5 milliohms) and stuck at the worst moment",
     True),
    ("silent-redundancy", "A lost pack must show",
     ("A second pack that failed on the last flight is no second pack. Caution where nothing aboard "
      "shows it; a note where a panel does, for it must be looked at."),
     "single failures that take a pack off its rail and change nothing else", True),
    ("collapse", "The packs can carry the worst moment",
     "More current is asked for than the packs can give at any voltage. No-go.",
     "no voltages at which the currents of all nodes balance", False),
    ("class-current", "Currents of the class of servo",
     "Until hinge moments are worked out, servos draw what is declared of their class. Note.",
     "stall and moving currents as declared", True),
    ("assumption", "What was taken as usual",
     "Where the description is silent a documented default stands in. Note.",
     "leads without wire or length, packs without resistance, items without reset voltage", True),
    ("wire-thick", "Metal that can be left out",
     ("Leads with twice the metal that drop, warmth, load and the volts after them ask for are heavier "
      "than they need be. Note, with the mass of all of them."),
     "twice the metal of the smallest standard wire that does, and more than 10 g in all", True),
    ("missing", "What can't be worked out",
     "Without phases there is no mean current and no charge of a flight. Measure.",
     "no rows of [[phase]]; packs without chemistry, cells or capacity", True),
)  # fmt: skip

RULES: tuple[Rule, ...] = (
    *(Rule(f"power.{slug}", title, why, formula, f"{PRACTICE}; {ISO}", f"power.{slug}", True)
      for slug, title, why, formula in _JUDGED),
    *(Rule(f"power.{slug}", title, why, formula, PRACTICE, "", acceptable)
      for slug, title, why, formula, acceptable in _PLAIN),
)  # fmt: skip
