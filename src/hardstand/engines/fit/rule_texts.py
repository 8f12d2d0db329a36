"""What each rule of the fit says when asked: why, formula, limit, source."""

from __future__ import annotations

from hardstand.findings import Rule

PRACTICE = "common practice, no source"
ISO = "ISO 14253-1 for the decision with uncertainty"
APART = (
    "least signed distance of the two solids (boxes, true cylinders, convex pieces), square to their "
    "faces, negative where they overlap; judged with U = 2u"
)
PER_RULE = f"{PRACTICE}; {ISO}"


def _gap(code: str, title: str, why: str, limit: str) -> Rule:
    return Rule(f"fit.{code}", title, why, APART, PER_RULE, limit, True)


RULES: tuple[Rule, ...] = (
    _gap(
        "box-gap",
        "Box clear of box",
        "Boxes that touch wear through and shake each other's plugs loose, and air cannot pass. Short "
        "of it is a no-go, because what chafes in a jet fails in the air.",
        "fit.box-gap",
    ),
    Rule(
        "fit.plug-room",
        "Room for plugs and the bend of their leads",
        "A plug that cannot go home, or a lead bent hard at its plug, comes loose or breaks. Short of "
        "it is a no-go, because it cannot be built as described.",
        "the room (row width x row height x plug + bend) in front of each face with ports in use, "
        "against everything else; " + APART,
        PER_RULE,
        "fit.plug-room",
        True,
    ),
    _gap(
        "structure-gap",
        "Box clear of structure",
        "Formers and trays flex in a hard landing. Short of it is a no-go, unless the builder accepts it.",
        "fit.structure-gap",
    ),
    _gap(
        "tub-gap",
        "Box clear of what lies over it",
        "A tub that rests on a box lifts its catches or breaks what is under it; it dips most where "
        "nobody looks, at a corner. Short of it is a no-go.",
        "fit.structure-gap",
    ),
    Rule(
        "fit.bay-gap",
        "Box within the skin",
        "What does not go into the fuselage cannot be built. Short of it is a no-go.",
        "least distance of the box's edges within the sections, skin straight between stations; "
        "judged with U = 2u",
        PER_RULE,
        "fit.structure-gap",
        True,
    ),
    _gap(
        "moving-gap",
        "Clear of what moves",
        "A leg, a wheel or a linkage that catches a box or a lead takes it along. Short of it is a no-go.",
        "fit.moving-gap",
    ),
    _gap(
        "hot-gap",
        "Clear of what is hot",
        "Plastic softens, insulation melts, cells vent and burn. Short of it is a no-go. A measured "
        "shield or jacket is a reason for a limit of one's own.",
        "fit.hot-gap",
    ),
    _gap(
        "fuel-gap",
        "Fuel clear of electrics",
        "A weeping tank beside a connector that sparks is a fire. Short of it is a no-go.",
        "fit.fuel-gap",
    ),
    Rule(
        "fit.tray-edge",
        "Base wholly on its tray",
        "What stands over the edge is held by its tape alone. Short of it is a no-go.",
        "least distance of the base to the tray's outline; over the edge, how far it hangs over; "
        "judged with U = 2u",
        PER_RULE,
        "fit.tray-edge",
        True,
    ),
    Rule(
        "fit.hole-gap",
        "Openings kept free",
        "An opening under a box passes no lead. Another opening can be cut, so it is a caution.",
        APART,
        PER_RULE,
        "fit.hole-gap",
        True,
    ),
    Rule(
        "fit.height",
        "Under the free height of the tray",
        "A box higher than the room above it does not go in. Over it is a no-go.",
        "free height less height of the box as it stands, raised as stated; judged with U = 2u",
        PER_RULE,
        "fit.height",
        True,
    ),
    Rule(
        "fit.assumed-size",
        "Gaps between boxes nobody measured",
        "A box only typical of its class may be larger by far. Where both sides are, a gap proves nothing.",
        "pairs with less than 10 mm to spare whose sizes both come from the class",
        PRACTICE,
    ),
    Rule(
        "fit.gyro-alignment",
        "Gyro square to the axes",
        "Off by an angle it takes roll for yaw: 5 % at 3 degrees. It flies, less well; a caution.",
        "misalignment per axis, worst; coupling = sin(angle); judged with U = 2u",
        PER_RULE,
        "fit.gyro-alignment",
        True,
    ),
    Rule(
        "fit.gyro-centreline",
        "Gyro near the centreline",
        "A rate sensor does not mind where it sits; alignment and a stiff mount matter. A wish.",
        "distance of its middle from the centreline, judged on the value alone",
        PRACTICE,
        "fit.gyro-centreline",
        True,
    ),
    Rule(
        "fit.gyro-cg",
        "Gyro with accelerometers near the CG",
        "Away from the CG it feels every turn as a pull; it corrects what is not there.",
        "distance of its middle from the CG of the state that the CG range belongs to; judged with "
        "U = 2u, that of the CG included",
        PER_RULE,
        "fit.gyro-cg",
        True,
    ),
    Rule(
        "fit.gyro-engine",
        "Gyro away from turbine and pump",
        "They shake, and shaking fools the gyro.",
        APART,
        PER_RULE,
        "fit.gyro-engine",
        True,
    ),
    Rule(
        "fit.aerial-missing",
        "Aerials described",
        "An aerial that is not described cannot be checked, and a bad place shows only in the air.",
        "every receiver has an aerial row",
        PRACTICE,
    ),
    Rule(
        "fit.aerial-apart",
        "Aerials of two receivers apart",
        "One shadow should not blind both.",
        "least distance between the aerials, each a straight line; judged with U = 2u",
        PER_RULE,
        "fit.aerial-apart",
        True,
    ),
    Rule(
        "fit.aerial-angle",
        "A receiver's aerials at right angles",
        "An aerial hears nothing along its own line; the other must cover it.",
        "angle between the lines, 0 to 90 degrees; judged with U = 2u",
        PER_RULE,
        "fit.aerial-angle",
        True,
    ),
    Rule(
        "fit.aerial-engine",
        "Aerial away from turbine and pump",
        "Brushes, ignition and starter make noise at close range.",
        APART,
        PER_RULE,
        "fit.aerial-engine",
        True,
    ),
    Rule(
        "fit.aerial-controller",
        "Aerial away from the turbine's control unit",
        "A processor and a pump driver make noise at close range.",
        APART,
        PER_RULE,
        "fit.aerial-controller",
        True,
    ),
    Rule(
        "fit.aerial-carbon",
        "Aerial away from carbon and metal",
        "They shadow and detune an aerial.",
        APART,
        PER_RULE,
        "fit.aerial-carbon",
        True,
    ),
    Rule(
        "fit.aerial-lead",
        "Aerial away from high-current leads",
        "A lead that carries 5 A or more makes noise at close range and shadows the aerial.",
        "least distance to the straight line between the lead's ports, the receiver's own leads left "
        "out; a real route is longer and may pass nearer",
        PER_RULE,
        "fit.aerial-lead",
        True,
    ),
    Rule(
        "fit.pack-slides-out",
        "Pack comes out with all else in place",
        "A pack that cannot be taken out is charged in the aeroplane, and stays in it when it burns.",
        "least distance of what the box sweeps on its way to the hatch and out; judged with U = 2u",
        PER_RULE,
        "fit.pack-slides-out",
        True,
    ),
    Rule(
        "fit.pack-opening",
        "Hatch large enough for the pack",
        "See fit.pack-slides-out.",
        "least distance of the pack to the edge of the opening, seen along its way; judged with U = 2u",
        PER_RULE,
        "fit.pack-opening",
        True,
    ),
    Rule(
        "fit.reach",
        "Switch and charge lead within reach",
        "A switch behind a panel is not switched off in a hurry.",
        "how far the middle of the part lies within the opening; judged with U = 2u",
        PER_RULE,
        "fit.reach",
        True,
    ),
    Rule(
        "fit.view",
        "Display in view",
        "A lamp that cannot be seen warns nobody.",
        "how far the face lies within the opening, and other items off the straight line of sight; "
        "judged with U = 2u",
        PER_RULE,
        "fit.view",
        True,
    ),
    Rule(
        "fit.pass-through",
        "Opening large enough for its leads",
        "A bundle that is pulled through a tight opening is chafed by its edge.",
        "width of the round opening of the same area, less that of which the wires of the leads whose "
        "`via` names it fill 40 %: root of sum d² / 0.4, d the outside diameter by gauge; plugs need "
        "their own room, or are fitted afterwards; judged with U = 2u",
        f"NFPA 70 (National Electrical Code), chapter 9, table 1, more than two wires (value from "
        f"memory); {ISO}",
        "fit.pass-through",
        True,
    ),
    Rule(
        "fit.outside-bays",
        "Items in no bay",
        "What lies in no described bay, such as a servo in a wing, is not held against any skin.",
        "middle of the box within no section",
        PRACTICE,
    ),
    Rule(
        "fit.assumption",
        "What was taken for want of a description",
        "A result rests on it.",
        "named in the text",
        PRACTICE,
    ),
    Rule(
        "fit.missing",
        "What is not described",
        "What is not described is not assessed, and that is not a clean bill.",
        "tables without rows",
        PRACTICE,
    ),
)
