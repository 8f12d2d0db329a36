"""Rules on the CG of the judged states: the designer's range and the builder's target."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from hardstand.engines.balance.bounds import limit_words, spare
from hardstand.engines.balance.deciding import what_decides
from hardstand.engines.balance.judged import Judged, judged_states
from hardstand.engines.balance.model import Headline, Trade, WayOut
from hardstand.engines.balance.remedies import remedy_of
from hardstand.figures import Figure
from hardstand.findings import Finding, Limit, judge
from hardstand.standards.units import show


def behind_mark(value_mm: float, u_mm: float) -> str:
    """A CG behind or ahead of the mark, in words.

    >>> behind_mark(-4.0, 1.0)
    '4.0 ± 2.0 mm ahead of the mark'
    """
    return (
        f"{show(abs(value_mm), 'mm', u_mm)} {'behind' if value_mm >= 0.0 else 'ahead of'} the mark"
    )


def _limit(ends: tuple[float, float], mark: float, *, target: bool) -> Limit:
    return Limit(
        "balance.cg-target" if target else "balance.cg-range",
        "mm",
        ends[0] - mark,
        ends[1] - mark,
        "the builder's target" if target else "the designer's range, aeroplane.cg_range_mm",
        target=target,
        by_builder=True,
    )


def cg_findings(slices: Any, earlier: Any) -> Iterator[Finding]:
    """The judged CG against the designer's range (with U) and the target (on its value)."""
    head: Headline = earlier["balance.headline"]
    trade: Trade | None = earlier["balance.trade"]
    for judged in judged_states(slices, head):
        figure = head.figures.figure(f"balance.cg@{judged.state_id}")
        # ways are sought for one state only
        mended = trade is not None and trade.state_id == judged.state_id
        ways = trade.ways if trade is not None and mended else ()
        said = False
        if judged.range_mm is not None:
            limit = _limit(judged.range_mm, judged.mark_mm, target=False)
            for finding in _against_range(head, trade, judged, figure, limit, ways):
                said = True
                yield finding
        if judged.target_mm is not None and not said:
            yield from _against_target(judged, figure, ways)


def _first(ways: tuple[WayOut, ...], test: Callable[[WayOut], bool]) -> WayOut | None:
    return next((way for way in ways if test(way)), None)


def _against_target(judged: Judged, figure: Figure, ways: tuple[WayOut, ...]) -> Iterator[Finding]:
    assert judged.target_mm is not None  # asked for only where there is one
    limit = _limit(judged.target_mm, judged.mark_mm, target=True)
    if judge(figure.value, figure.u, limit) != "outside":
        return
    yield Finding(
        "balance.cg-target",
        "caution",
        (judged.state_id,),
        f"In state {judged.state_id} the CG is {behind_mark(figure.value, figure.u)}; the target is "
        f"{limit_words(limit)} (judged on the value alone).",
        figure,
        limit,
        remedy_of(_first(ways, lambda way: way.reaches_range and way.reaches_target)),
    )


def masses_are_assumed(head: Headline, address: str) -> bool:
    """Whether every mass or scale that moves a figure is merely assumed: it may close no check."""
    row = head.figures.addresses.index(address)
    kinds = {
        one.kind
        for one, slope in zip(head.figures.inputs, head.figures.sensitivity[row], strict=True)
        if slope != 0.0 and one.unit == "g"
    }
    return kinds == {"assumed"}


def _against_range(
    head: Headline,
    trade: Trade | None,
    judged: Judged,
    figure: Figure,
    limit: Limit,
    ways: tuple[WayOut, ...],
) -> Iterator[Finding]:
    outcome = judge(figure.value, figure.u, limit)
    assumed = masses_are_assumed(head, figure.address)
    stands = (
        f"In state {judged.state_id} the CG is {behind_mark(figure.value, figure.u)}; its range is "
        f"{limit_words(limit)}"
    )
    remedy = remedy_of(_first(ways, lambda way: way.reaches_range)) if outcome != "inside" else None
    about = (judged.state_id,)
    if outcome == "outside":
        ahead = figure.value < (limit.low or 0.0)
        why = (
            "nose-heavy, it may not rotate or flare"
            if ahead
            else "tail-heavy, it may not be stable in pitch"
        )
        yield Finding(
            "balance.cg-range", "no-go", about, f"{stands}: {why}.", figure, limit, remedy
        )
    elif outcome == "between":
        decides = (
            what_decides(trade, head, abs(spare(figure.value, limit)))
            if trade is not None and trade.state_id == judged.state_id
            else "Weigh the whole aeroplane."
        )
        text = f"{stands}, and it is too near to an edge to tell. {decides}"
        yield Finding("balance.cg-range", "measure", about, text, figure, limit, remedy)
    elif assumed:
        text = (
            f"{stands}, but every mass behind it is only typical of its class: weigh the aeroplane."
        )
        yield Finding("balance.cg-range", "measure", about, text, figure, limit)
