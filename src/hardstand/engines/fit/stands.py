"""How a figure stands and why it matters, as pieces of sentences: data, by rule."""

from __future__ import annotations

WHY = {
    "box-gap": "boxes that touch wear through",
    "plug-room": "the plug must go home, and its lead needs room to bend",
    "structure-gap": "structure flexes in a hard landing",
    "tub-gap": "what rests on the box lifts off its catches, or breaks it",
    "bay-gap": "what does not lie within the skin does not go in",
    "moving-gap": "what moves takes along what it catches",
    "hot-gap": "plastic softens, insulation melts, cells burn",
    "fuel-gap": "a weeping tank beside a connector is a fire",
    "hole-gap": "an opening under a box passes no lead",
    "pass-through": "a bundle that is pulled through a tight opening is chafed by its edge",
    "tray-edge": "what hangs over is held by its tape alone",
    "height": "it does not go in",
    "gyro-alignment": "off its axes it takes one rotation for another",
    "gyro-centreline": "a rate sensor does not mind, so this is only a wish",
    "gyro-cg": "away from the CG it feels every turn as a pull",
    "gyro-engine": "shaking fools a gyro",
    "aerial-apart": "one shadow should not blind both receivers",
    "aerial-angle": "each is deaf along its own line, and the other must cover it",
    "aerial-engine": "brushes, ignition and starter make noise",
    "aerial-controller": "its processor and pump driver make noise",
    "aerial-carbon": "it shadows and detunes the aerial",
    "aerial-lead": "high current makes noise; a straight line stands for the lead's route",
    "pack-slides-out": "a pack must come out with all else in place",
    "pack-opening": "a pack must come out of its hatch",
    "reach": "it must be reached in a hurry",
    "view": "a lamp that cannot be seen warns nobody",
}
# By the figure's name or the rule: how it stands when not negative, and when negative.
STANDS = {
    "plug-room": (
        "{name} and {other} are {value} apart{at}",
        "{name} reaches {value} into {other}{at}",
    ),
    "plug-height": (
        "{name} is {value} under the free height of {other}{at}",
        "{name} stands {value} above the free height of {other}{at}",
    ),
    "hole-gap": (
        "{name} is {value} clear of the opening {other}{at}",
        "{name} reaches {value} over the opening {other}{at}",
    ),
    "pass-through": (
        "the opening {name} is {value} wider than its {word} need{at}",
        "the opening {name} is {value} too narrow for its {word}{at}",
    ),
    "tray-edge": (
        "the base of {name} is {value} within the edge of {other}{at}",
        "{name} hangs {value} over the edge of {other}{at}",
    ),
    "height": (
        "{name} is {value} under the free height of {other}{at}",
        "{name} stands {value} above the free height of {other}{at}",
    ),
    "gyro-alignment": ("{name} is off by {value} in {word}",),
    "gyro-centreline": ("{name} is {value} off the centreline{at}",),
    "gyro-cg": ("{name} is {value} from the CG in state {word}",),
    "aerial-angle": ("{name} and {other} stand at {value} to one another",),
    "pack-slides-out": (
        "on its way out through {word} {name} passes {other} at {value}{at}",
        "on its way out through {word} {name} would run {value} into {other}{at}",
    ),
    "pack-opening": (
        "on its way out {name} clears the edge of {other} by {value}{at}",
        "on its way out {name} is {value} over the edge of {other}{at}",
    ),
    "reach": (
        "the middle of {name} is {value} within {other}{at}",
        "the middle of {name} is {value} outside {other}{at}",
    ),
    "view": (
        "{other} is {value} beside the line of sight to {name}{at}",
        "{other} covers {value} of the line of sight to {name}{at}",
    ),
    "view-opening": (
        "the face of {name} is {value} within {other}{at}",
        "the face of {name} is {value} outside {other}{at}",
    ),
    "in-bay": ("{name} is {value} within the skin{at}", "{name} is {value} outside the skin{at}"),
    "apart": (
        "{name} and {other} are {value} apart{at}",
        "{name} and {other} overlap by {value}{at}",
    ),
}
# Names of figures whose subject is spelled out in their address: pieces, not whole rows.
OF_PIECES = ("plug-room", "plug-height", "hole-gap", "in-bay", "apart")
