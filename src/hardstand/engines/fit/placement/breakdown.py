"""What a layout costs, part by part, in words and in the unit of each part."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from hardstand.engines.fit.layout.cost import evaluate
from hardstand.engines.fit.layout.problem import Layout, Lead
from hardstand.engines.fit.placement import prices
from hardstand.engines.fit.placement.translate import Translation


@dataclass(frozen=True, slots=True)
class CostPart:
    """One part of the cost: `value` in `unit`, what a unit of it costs, and that in mm of thin lead."""

    what: str
    words: str
    value: float
    unit: str
    price_mm: float
    cost_mm: float


_LEADS = (
    ("high-current", "leads that carry high current"),
    ("power", "leads to motors, servos and supplies"),
    ("signal", "thin leads"),
)


def breakdown(made: Translation, layout: Layout) -> tuple[CostPart, ...]:
    """The parts of a layout's cost; their `cost_mm` add up to the whole, as the solver counts it."""
    found = []
    for kind, words in _LEADS:
        chosen = [one for one in made.problem.leads if made.kinds.get(one.id) == kind]
        if chosen:
            price = float(prices.LEAD_WEIGHTS[kind])
            found.append(_length(made, layout, chosen, kind, words, price))
    for what, words, price in (
        ("aerial", "aerials from their receivers", float(prices.LEAD_WEIGHTS["aerial"])),
        ("access", "items from the opening they are reached through", prices.ACCESS),
        ("gyro-cg", "gyro with accelerometers from the CG", prices.GYRO_FROM_CG),
    ):
        prefix = what.partition("-")[0] + "."
        chosen = [
            one
            for one in made.problem.leads
            if one.id.startswith(prefix) and one.id not in made.kinds
        ]
        if chosen:
            found.append(_length(made, layout, chosen, what, words, price))
    return (*found, *_wishes(made, layout))


def _length(
    made: Translation, layout: Layout, chosen: list[Lead], what: str, words: str, price: float
) -> CostPart:
    cost = _only(made, layout, leads=tuple(chosen))
    length = _only(made, layout, leads=tuple(replace(one, weight=1) for one in chosen)) / 2.0
    return CostPart(what, words, length, "mm", price, prices.lead_mm(cost))


def _only(made: Translation, layout: Layout, **parts: object) -> int:
    """The cost of some parts of the problem alone."""
    nothing: dict[str, object] = {"leads": (), "centred": (), "balances": (), "apart": ()}
    make: Callable[..., object] = replace
    problem = make(made.problem, **{**nothing, **parts})
    return evaluate(problem, layout).total  # type: ignore[arg-type]


def _wishes(made: Translation, layout: Layout) -> list[CostPart]:
    found = []
    if made.problem.centred:
        cost = _only(made, layout, centred=made.problem.centred)
        words = "gyro off the centreline"
        off = prices.lead_mm(cost) / prices.GYRO_OFF
        found.append(CostPart("gyro-centre", words, off, "mm", prices.GYRO_OFF, prices.lead_mm(cost)))
    if made.problem.apart:
        cost = _only(made, layout, apart=made.problem.apart)
        words = "receivers nearer to one another than their aerials should be"
        short = prices.lead_mm(cost) / prices.APART
        found.append(CostPart("apart", words, short, "mm", prices.APART, prices.lead_mm(cost)))
    if made.target is not None:
        moments = evaluate(made.problem, layout).off_g_mm
        for balance, moment in zip(made.problem.balances, moments, strict=True):
            axis = "along the aeroplane" if balance.axis == "x" else "to one side"
            cost = _only(made, layout, balances=(balance,))
            price = balance.weight * made.target.mass_g / prices.POINTS
            found.append(
                CostPart(f"cg-{balance.axis}", f"CG off its target {axis}",
                         abs(moment) / made.target.mass_g, "mm", price, prices.lead_mm(cost))
            )  # fmt: skip
    return found


def cg_mm(made: Translation, layout: Layout) -> tuple[float, float] | None:
    """The CG (x, y) of a layout in the target's state, None without a target."""
    if made.target is None:
        return None
    off = evaluate(made.problem, layout).off_g_mm
    x, y = (
        want + one / made.target.mass_g
        for want, one in zip(made.target.wanted_mm, off, strict=True)
    )
    return x, y
