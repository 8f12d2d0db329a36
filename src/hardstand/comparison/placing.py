"""An option with everything that may move placed by the solver before it is compared."""

from __future__ import annotations

from collections.abc import Callable

from hardstand.comparison.compare import Placed
from hardstand.placement import place
from hardstand.placement_value import Found, Request
from hardstand.workspace import Tell, Workspace, opened


def placed(workspace: Workspace, options: tuple[str, ...], request: Request, tell: Tell,
           stopped: Callable[[], bool]) -> Placed:
    """The workspace of an option with the best layout found, in memory only, and what was moved.

    `tell` hears what is being done; `stopped` ends the search with the best so far. Where no layout
    passes the checks it stands as described, and that is said. Raises UnreadableError where the
    description with these options cannot be read.
    """
    space = opened(workspace.folder, workspace.texts, options)
    name = "+".join(options)
    outcome = place(space, request, lambda step: tell(f"{name}: {step}"), stopped)
    if not outcome.layouts:
        return space, ("no layout was found that passes the checks: it stands as described",)
    best = outcome.layouts[0]
    texts = {**workspace.texts, **space.tried(best.changes)}
    return opened(workspace.folder, texts, options), moves(best)


def moves(found: Found) -> tuple[str, ...]:
    """What a layout moves, in words; the items that stay are left out."""
    told = []
    for one in found.places:
        if one.moved:
            turned = f", turned to {one.turn_deg:.0f}°" if one.turn_deg != one.was_turn_deg else ""
            to = f" to {one.tray}" if one.tray != one.was_tray else ""
            at = ", ".join(f"{coordinate:.0f}" for coordinate in one.at_mm)
            told.append(f"{one.item}{to} at {at} mm{turned}")
    return tuple(told) or ("nothing stands better than as described",)
