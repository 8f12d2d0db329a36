"""Power as plain data: packs, rails, consumers and phases, and what every failure does."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from hardstand.asbuilt import AsBuilt
    from hardstand.assessment import Assessment
    from hardstand.engines.power.model import (
        Choices,
        Consumer,
        Endurance,
        FailureRow,
        Failures,
        Moments,
        PowerNetwork,
        WireChoice,
    )

Form = dict[str, Any]


def power_form(assessment: Assessment, asbuilt: AsBuilt) -> Form:
    """Volts in the order of `moments`, null where nothing feeds; amperes, mAh; failures worst first.

    `endurance` of a pack is null where no phases are described. `silent` failures take a pack away and
    change nothing else. `wires` are in the order of the leads, `silent_leads` those of which nobody
    states a current.
    """
    del asbuilt
    results = assessment.results
    power: PowerNetwork | None = results["power.network"]
    moments: Moments | None = results["power.moments"]
    failed: Failures | None = results["power.failures"]
    endurance: Endurance | None = results["power.endurance"]
    chosen: Choices | None = results["power.choice"]
    if power is None or moments is None or failed is None or chosen is None:
        return {"moments": [], "packs": [], "rails": [], "consumers": [], "phases": [],
                "failures": [], "functions": [], "wires": [], "silent_leads": []}  # fmt: skip
    return {
        "moments": [{"name": one.name, "label": one.label, "worst": one.worst,
                     "packs": list(one.packs)} for one in moments.moments],
        "packs": [_pack(power, moments, endurance, one) for one in power.packs],
        "rails": [{"domain": rail, "set_v": set_v, "volts": _volts(power, moments, rail),
                   "worst": _figure(assessment, f"power.rail@{rail}")}
                  for rail, set_v in power.rails.items()],
        "consumers": [_consumer(power, moments, one) for one in power.consumers],
        "phases": [{"name": name, "seconds": seconds} for name, seconds in moments.phases],
        "failures": [_failure(one) for one in sorted(failed.rows, key=_gravity)],
        "functions": list(failed.functions),
        "wires": [_wire(assessment, one) for one in chosen.wires],
        "silent_leads": list(chosen.silent),
    }  # fmt: skip


def _volts(power: PowerNetwork, moments: Moments, node: str) -> list[float | None]:
    column = power.network.node_at.get(node)
    if column is None:
        return [None] * len(moments.moments)
    return [float(volts) if fed else None for volts, fed in
            zip(moments.node_v[:, column], moments.fed[:, column], strict=True)]  # fmt: skip


def _pack(
    power: PowerNetwork, moments: Moments, endurance: Endurance | None, pack: str
) -> Form:
    cells = next(one for one in power.network.packs if one.id == pack)
    column = power.network.element_at[pack]
    use, by_phase = None, []
    if endurance is not None:
        at = next(at for at, one in enumerate(endurance.packs) if one.pack == pack)
        one = endurance.packs[at]
        by_phase = [float(mah) for mah in endurance.by_phase_mah[:, at]]
        use = {"capacity_mah": one.capacity_mah, "shared_mah": one.shared_mah,
               "alone_mah": one.alone_mah, "flights": one.flights, "needed_mah": one.needed_mah,
               "by_phase_mah": by_phase}  # fmt: skip
    group = next((packs for packs, _ in power.groups if pack in packs), (pack,))
    return {
        "id": pack, "cells": cells.cells, "label_mah": cells.capacity_mah,
        "resistance_mohm": cells.resistance_mohm, "partners": [one for one in group if one != pack],
        "amperes": [float(a) for a in moments.current_a[:, column]],
        "volts": _volts(power, moments, f"{pack}.cells"),
        "worst_moment": moments.peak_at.get(group[0], ""), "endurance": use,
    }  # fmt: skip


def _consumer(power: PowerNetwork, moments: Moments, one: Consumer) -> Form:
    return {
        "end": one.end, "item": one.item, "functions": list(one.functions),
        "idle_a": one.amperes("idle"), "moving_a": one.amperes("moving"),
        "stall_a": one.amperes("stall"), "least_v": one.least_v, "resets": one.resets,
        "volts": _volts(power, moments, one.domain),
    }  # fmt: skip


def _failure(one: FailureRow) -> Form:
    return {
        "element": one.element, "within": one.within, "kind": one.kind, "low_rail": one.low_rail,
        "low_v": one.low_v, "lost": list(one.lost), "less": list(one.less), "dead": list(one.dead),
        "over": list(one.over), "packs_out": list(one.out), "silent": one.silent,
        "settled": one.settled,
    }  # fmt: skip


def _wire(assessment: Assessment, one: WireChoice) -> Form:
    field, value = one.chosen or ("", None)
    return {
        "lead": one.lead, "from": one.ends[0], "to": one.ends[1], "length_mm": one.length_mm,
        "length_from": one.length_from, "conductors": one.conductors,
        "normal_a": one.normal_a, "normal_at": one.normal_at, "worst_a": one.worst_a,
        "worst_at": one.worst_at, "lasting_a": one.lasting_a, "lasting_at": one.lasting_at,
        "warmth": _figure(assessment, f"power.wire-warmth@{one.lead}"),
        "there": {"awg": one.there_awg, "area_mm2": one.there_mm2},
        "enough": {"awg": one.awg, "area_mm2": one.section_mm2},
        "chosen": {"field": field, "value": value} if field else None, "binds": one.binds,
        "mass_difference_g": one.mass_g, "connectors": list(one.plugs), "connector_enough": one.plug,
    }  # fmt: skip


def _gravity(one: FailureRow) -> tuple[bool, int, int, bool]:
    flying = {"pitch", "roll"} & set(one.lost)
    return (not flying, -len(one.lost), -len(one.less), not one.silent)


def _figure(assessment: Assessment, address: str) -> Form | None:
    try:
        return assessment.figure(address).as_json()
    except KeyError:
        return None
