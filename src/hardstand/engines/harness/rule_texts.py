"""What each rule of the harness says when asked: why, formula, limit, source."""

from __future__ import annotations

from hardstand.findings import Rule

PRACTICE = "common practice, no source"
ISO = "ISO 14253-1 for the decision with uncertainty"
_PINS = "wires of the lead by the places of both plugs; pins of one name belong together"
_SHARE = "sum of the declared currents downstream / what may be carried x 100 %; judged with U = 2u"

# slug, title, why (with the severity), formula, acceptable
_PLAIN: tuple[tuple[str, str, str, str, bool], ...] = (
    ("shared-port", "One plug in each port",
     "Two leads at one port cannot both be plugged in: one of them ends elsewhere, or nowhere. No-go.",
     "leads that end at a port and are no branches of one another", False),
    ("port-kind", "Ports of one kind",
     "A motor on a signal, or a pack on a signal input, destroys the weaker side. No-go.",
     "power with power, signal with signal, motor with motor, tube with tube", False),
    ("connector", "Plugs of one class",
     "What does not go together is forced, or hangs loose. No-go, for it cannot be built so.",
     "class of the lead's plug against the port's, by name", True),
    ("gender", "Pins into sockets",
     "Two halves of one gender do not mate. No-go, for it cannot be built so.",
     "gender of the lead's plug against the port's", True),
    ("poles", "As many poles on both sides",
     "A plug of other poles fits in the wrong place, or not at all. No-go.",
     "poles of the lead's plug against the port's", True),
    ("polarity", "Plus to plus, minus to minus",
     "Reversed, a pack destroys the box in a blink and may burn itself. No-go.", _PINS, False),
    ("pin-order", "Each wire in its place",
     "Plus on a signal pin destroys what is plugged in; a signal on plus commands nothing. No-go.",
     _PINS, False),
    ("live-pins", "No bare live pins",
     "A plug with pins on the side of the pack shorts on the first metal that it touches. Caution.",
     "gender of the far plug of each lead from a pack", True),
    ("signal-form", "A bus into a bus, pulses into pulses",
     "A servo does not understand a bus, nor a bus input a pulse: nothing answers. No-go.",
     "form of what gives a signal against that of each port that takes it", False),
    ("two-drivers", "One that speaks on each wire",
     "Two outputs on one wire overdrive one another, and neither is understood. No-go.",
     "ports on a signal net that give", False),
    ("no-ground", "A minus beside every signal",
     "A signal needs its way back: without it servos twitch, or run to their end. No-go.",
     "items at both ends joined by minus through any leads", False),
    ("second-ground", "Minus joined once",
     ("A second way for the minus lets current of the motors flow through thin signal leads, and "
      "hum into the signal. Caution."),
     "leads that join only minus where it is joined already; shields joined at both ends", True),
    ("packs-series", "No packs in series by mistake",
     "Their voltages add, and everything behind them gets the sum. No-go.",
     "plus of one pack and minus of another on one net", False),
    ("packs-unlike", "Like packs on one rail",
     ("Of unlike packs the one with more volts carries all; joined plainly, it charges the other "
      "without control, and lithium burns. No-go."),
     "chemistry and cells of the packs that reach one rail", False),
    ("backfeed", "No rail into another",
     ("Two supplies joined by a plus wire feed one another: a fault on one pulls both down, and thin "
      "servo leads carry what passes between. No-go."),
     "sources on one island of plus copper", False),
    ("voltage-high", "No more volts than a port stands",
     "Too many volts destroy servos and receivers, at once or in the first summer. No-go.",
     "full packs, through regulators as set, against the highest voltage of port or part", True),
    ("voltage-low", "Enough volts to work",
     ("What gets too few volts restarts in flight or does not start. No-go. Sag under load is for the "
      "power stage."), "packs under way, through regulators, against the lowest of port or part", True),
    ("unpowered", "Everything fed",
     "A box without a supply does nothing, and what it passes on fails with it. No-go.",
     "power followed from every pack over leads and through items", False),
    ("unconnected", "Everything plugged in",
     "An item that no lead reaches was forgotten, or its lead was. Caution.",
     "items with electric ports at which no lead ends", True),
    ("port-empty", "What must be plugged in is",
     "An empty bus or pack input is a back-up that is not there. Caution; no-go where all are empty.",
     "needed ports of a unit in use at which no lead ends", True),
    ("gear-on-flight-rail", "Gear motors on a supply of their own",
     "A leg that stalls takes 5 A or more for seconds. Caution.",
     "packs that reach the legs' motors and the servos of pitch or roll", True),
    ("switch-leg", "Switches in the plus",
     "With minus open, everything stands on plus, and current returns through signal leads. Caution.",
     "pole that the switch breaks", True),
    ("switch-fails-off", "Switches that stay on",
     "A switch, its lead and its contact break sooner than all else. No-go.",
     "what the switch does when its lead or contact breaks", True),
    ("fuse-missing", "A fuse where one belongs",
     "A thin wire on a pack burns the aeroplane when it is pinched. Caution.",
     "leads on a pack below 0.5 mm2, and ports whose maker asks for a fuse", True),
    ("fuse-large", "A fuse smaller than its wire",
     "A fuse protects the wire behind it, if it goes first. No-go.",
     "fuse against 10 A/mm2 of the wire, and what the port asks for", True),
    ("no-channel", "Every surface on a channel",
     "A servo that nothing commands holds where it was, or flutters. No-go.",
     "servos that no channel and no controller reaches", False),
    ("channel-empty", "Every channel moves something",
     "A channel that ends nowhere is a lead forgotten or an output mistaken. Caution.",
     "channels whose outputs reach no item", True),
    ("wrong-item", "The channel moves what it should",
     ("Leads exchanged in a plug: the stick moves another surface, and roll may still look right. "
      "No-go."), "each output followed over its leads to the item at their end", False),
    ("wrong-side", "Left is left",
     ("Halves exchanged look right on the ground, for both servos are mirrored, and differential and "
      "trim are wrong. No-go."), "side of the channel against y of what it moves", False),
    ("output-shared", "One channel at each output",
     "An output obeys one channel, and the other is dead. No-go.", "channels by output", False),
    ("output-mixed", "No unlike functions on one output",
     "Brake and flap on one output brake in the approach. No-go.",
     "functions of an output's channels and of the items that it reaches", False),
    ("throttle-path", "Two ways to stop the engine",
     "An engine that cannot be stopped burns, or flies on. Caution.",
     "command leads into the turbine's control unit, and valves by hand", True),
    ("single-failure", "No single failure takes an axis",
     ("Where one item, lead or plug takes all surfaces of pitch, or of pitch and roll, the aeroplane "
      "is lost with it. No-go until the builder takes it on by name; roll alone is a caution."),
     "each item, lead and joint lost in turn: which surfaces still have power and a command", True),
    ("unknown-end", "Both ends known",
     "A lead that nobody knows is plugged in by guess. Measure.", "leads with an end `unknown`", True),
    ("label-twice", "One label, one lead",
     "Two leads of one label are exchanged the next time the wing goes on. Caution.",
     "labels, or ids where there is none, letters large or small", True),
    ("missing", "What is not described",
     "Without channels nobody can say what moves what. Measure.", "no rows of [[channel]]", True),
    ("assumption", "Plugs taken as fitting",
     "A lead that does not say what plugs it has is taken to fit. Note.", "leads without connector",
     True),
)  # fmt: skip
_JUDGED: tuple[tuple[str, str, str, str], ...] = (
    ("wire-load", "Wire thick enough for its current",
     "A wire that is too thin gets hot and drops voltage. No-go beyond what it carries for long.",
     f"{_SHARE}; a wire carries 10 A/mm2 for long"),
    ("pin-load", "Pins that stand the lasting current",
     "Pins that heat lose their spring, then their contact. No-go.", _SHARE),
    ("pin-peak", "Pins that stand the highest current",
     "A stall of seconds heats a pin, two and a half times its rating is common for so long. Caution.", _SHARE),
    ("rail-load", "Units that stand what hangs on them",
     "A regulator beyond its rating shuts down, or burns. No-go.", _SHARE),
    ("spare-length", "Leads long enough",
     ("A lead pulled tight unplugs itself, and cannot be plugged with the wing held beside. Caution; "
      "the straight line is the least that any route can be."),
     "length, with the items' own leads, less the distance of the ports; judged with U = 2u"),
)  # fmt: skip

RULES: tuple[Rule, ...] = (
    *(Rule(f"harness.{slug}", title, why, formula, PRACTICE, "", acceptable)
      for slug, title, why, formula, acceptable in _PLAIN),
    *(Rule(f"harness.{slug}", title, why, formula, f"{PRACTICE}; {ISO}", f"harness.{slug}", True)
      for slug, title, why, formula in _JUDGED),
)  # fmt: skip
