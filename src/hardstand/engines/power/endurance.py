"""Charge per flight of every pack, and how many flights one charging allows.

A flight's charge is the sum of the mean currents by phase. Packs that share rails share it as the
solved mean says; each must also be able to finish a whole flight alone. Assumed: 90 % of the label's
capacity, and a reserve of 20 % that is never taken. Source of the rule: common practice.
"""

from __future__ import annotations

from math import floor
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.defaults import CAPACITY_SHARE, RESERVE_SHARE
from hardstand.engines.power.duty import currents, mean_weights, shares_of
from hardstand.engines.power.model import Endurance, Moments, PackUse, PowerNetwork
from hardstand.figures import FigureSet, Input

Floats = NDArray[np.float64]
MAH_PER_A_S = 1.0 / 3.6
MOST_USED = 0.60  # of its capacity, before a pack is charged again; common practice


def endurance(slices: Any, earlier: Any) -> Endurance | None:
    """Node: charge and flights of every pack; None without a network or without phases."""
    power: PowerNetwork | None = earlier["power.network"]
    solved: Moments | None = earlier["power.moments"]
    if power is None or solved is None or not slices.phases:
        return None
    known, drawing = shares_of(slices.duties), currents(power.consumers)
    weights = np.array([mean_weights(power.consumers, one, known) for one in slices.phases])
    seconds = np.array([one.duration_s * one.times for one in slices.phases])
    per = MAH_PER_A_S * seconds[:, None, None] * weights  # mAh per ampere, (phases, loads, states)
    by_phase, uses, rows = [], [], []
    for packs, members in power.groups:
        inside = np.array([one.domain in members for one in power.consumers])
        mine = per * inside[None, :, None]
        whole = (mine * drawing.a).sum(axis=(1, 2))
        slope = np.array([float((mine.sum(axis=0) * place).sum()) for place in drawing.places])
        for pack in packs:
            share = _share(power, solved, pack, packs)
            uses.append(_use(power, pack, packs, float(whole.sum()), share))
            by_phase.append(whole * share)
            rows.append((pack, float(whole.sum()), slope))
    return Endurance(tuple(uses), tuple(one.name or one.id for one in slices.phases),
                     np.array(by_phase).T, _figures(power, drawing.inputs, rows))  # fmt: skip


def _share(power: PowerNetwork, solved: Moments, pack: str, packs: tuple[str, ...]) -> float:
    row = next(at for at, one in enumerate(solved.moments) if one.name == "mean")
    at = [power.network.element_at[one] for one in packs]
    total = float(solved.current_a[row, at].sum())
    mine = float(solved.current_a[row, power.network.element_at[pack]])
    return mine / total if total > 1e-9 else 1.0 / len(packs)


def _use(
    power: PowerNetwork, pack: str, packs: tuple[str, ...], alone_mah: float, share: float
) -> PackUse:
    label = next(one.capacity_mah for one in power.network.packs if one.id == pack)
    capacity = 0.01 * CAPACITY_SHARE.value * label
    return PackUse(pack, tuple(one for one in packs if one != pack), capacity, alone_mah * share,
                   alone_mah, flights(capacity, alone_mah, alone_mah * share),
                   alone_mah / (1.0 - RESERVE_SHARE))  # fmt: skip


def flights(capacity_mah: float, alone_mah: float, shared_mah: float) -> int:
    """How many flights one charging allows, so that the pack could still finish the last one alone.

    >>> flights(0.9 * 2600.0, 454.0, 454.0)
    3

    Source: common practice: a reserve of 20 %, and no more than 60 % used before it is charged.
    """
    if shared_mah <= 0.0:
        return 0 if alone_mah > 0.0 else 99
    after_one = ((1.0 - RESERVE_SHARE) * capacity_mah - alone_mah) / shared_mah
    return max(0, floor(min(after_one, MOST_USED * capacity_mah / shared_mah) + 1e-9))


def _figures(
    power: PowerNetwork, inputs: tuple[Input, ...], rows: list[tuple[str, float, Floats]]
) -> FigureSet:
    """Charge of a flight on each pack alone, mAh, and as a share of its capacity, per cent."""
    label = {one.id: one.capacity_mah for one in power.network.packs}
    addresses, values, units, labels, slopes = [], [], [], [], []
    for pack, mah, slope in rows:
        real = 0.01 * CAPACITY_SHARE.value * label[pack]
        share = 100.0 * mah / real
        addresses += [f"power.flight-charge@{pack}", f"power.charge-used@{pack}"]
        values += [mah, share]
        units += ["mah", "pct"]
        labels += [f"charge of a flight on {pack} alone", f"a flight on {pack} alone, of its capacity"]
        slopes += [np.append(slope, 0.0),
                   np.append(100.0 / real * slope, -share / CAPACITY_SHARE.value)]  # fmt: skip
    return FigureSet(tuple(addresses), np.array(values), tuple(units), (*inputs, CAPACITY_SHARE),
                     np.array(slopes).reshape(len(values), len(inputs) + 1), labels=tuple(labels),
                     method="mean currents by phase times their length")  # fmt: skip
