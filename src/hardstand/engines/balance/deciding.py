"""Which measurement would decide what the uncertainty leaves open."""

from __future__ import annotations

from hardstand.engines.balance.model import Headline, Trade
from hardstand.standards.units import show


def known_to(u_mm: float) -> str:
    """An uncertainty as it is said: the half-width of 95 %.

    >>> known_to(1.1)
    '± 2.2 mm'
    """
    return f"± {show(2.0 * u_mm, 'mm')}"


def what_decides(trade: Trade, head: Headline, margin_mm: float) -> str:
    """The cheapest measurement that leaves less than the margin to an edge open, as sentences.

    Weighing the whole aeroplane comes first where that has not been done, then single entries.
    """
    now = f"The CG is known to {known_to(trade.u_now_mm)}, and its edge is {show(margin_mm, 'mm')} away."
    whole = trade.whole_weighed_u_mm
    if whole is not None and not head.updated and 2.0 * whole <= margin_mm:
        return (
            f"{now} Weighed on three scales it would be known to {known_to(whole)}, which decides."
        )
    for address, u_mm in trade.next_weighing:
        if 2.0 * u_mm <= margin_mm:
            return f"{now} Measure {address} anew: {known_to(u_mm)}, which decides."
    if whole is not None and not head.updated:
        return (
            f"{now} Weigh it on three scales first: {known_to(whole)}. If that is still too near, "
            "move the CG."
        )
    return f"{now} No single measurement decides that: move the CG."
