"""The page behind a figure: the steps it came from, the inputs that move it, their lines in the file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from hardstand.standing import stand_of
from hardstand.views.trace_form import input_addresses, moved_form, trace_form
from hardstand.workbench.asked import Asked, Common, NoSuchPageError, common

MOST = 40


@dataclass(frozen=True)
class TracePage:
    """`figure` is the form behind a figure, or `input` that of an input with what it moves."""

    common: Common
    figure: Mapping[str, Any] | None
    input: Mapping[str, Any] | None
    most: int = MOST


def trace(asked: Asked) -> TracePage:
    """What the page behind a figure, or behind an input, shows."""
    held = asked.held
    wanted = asked.query.get("of", "")
    raw = held.workspace.read.raw

    def stand(address: str) -> dict[str, Any]:
        return stand_of(raw, address)

    shared = common(asked, None, wanted, "where it came from")
    if wanted in held.assessment.addresses():
        return TracePage(shared, trace_form(held.assessment, wanted, stand), None)
    if wanted in input_addresses(held.assessment):
        return TracePage(shared, None, moved_form(held.assessment, wanted, stand))
    raise NoSuchPageError(f"There is no figure {wanted}.", "It may be gone since the last change.")
