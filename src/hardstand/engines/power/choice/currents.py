"""The greatest current of each lead: without a failure, in the worst single one, and what lasts.

A moment that is the worst for a pack need not be that of one lead: a lead's own worst moment is looked
for among what hangs on it alone. Short circuits are left out: a fuse or a limiter is the answer to
them, not thick wire. Warmth counts the mean of what lasts 10 s or more, drop the worst moment.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.harness.model import Supply
from hardstand.engines.power.choice.downstream import Downstream
from hardstand.engines.power.duty import currents, peak_weights, shares_of
from hardstand.engines.power.model import FailureRow, Failures, Moments, PowerNetwork

Floats = NDArray[np.float64]
HEATS_S = 10.0  # thin wire is warm within half a minute: value from memory
MORE, LEAST_A = 1.001, 1e-3  # a failure is named only where it asks for more than no failure does


@dataclass(frozen=True, eq=False)
class LeadCurrents:
    """By lead (L), A: at the worst normal moment, in the worst failure, and lasting in both; and when."""

    normal_a: Floats
    normal_at: tuple[str, ...]
    worst_a: Floats
    worst_at: tuple[str, ...]
    calm_a: Floats
    lasting_a: Floats
    lasting_at: tuple[str, ...]


def lead_currents(
    power: PowerNetwork, moments: Moments, failed: Failures, supply: Supply, after: Downstream,
    leads: Sequence[str], slices: Any,
) -> LeadCurrents:  # fmt: skip
    """Read the greatest currents off moments and failures, and each lead's own worst moment."""
    columns = [power.network.element_at[one] for one in leads]
    solved = np.abs(moments.current_a[:, columns])
    shared = _shared(power, after, leads)
    normal, when = _own(power, after, leads, slices, shared)
    names = [one.name for one in moments.moments]
    at_peak = solved[names.index("peak")]
    when = tuple("worst moment" if peak >= one else word
                 for peak, one, word in zip(at_peak, normal, when, strict=True))  # fmt: skip
    normal = np.maximum(normal, at_peak)
    whole = [at for at, one in enumerate(names) if "-" not in one and one != "peak"]
    calm = solved[whole].max(axis=0)
    own, phase = _lasting(supply, moments, after, leads, slices.phases)
    own = np.where(shared, 0.0, own)
    busy = tuple(word if more else "busiest minute"
                 for word, more in zip(phase, (own > calm).tolist(), strict=True))  # fmt: skip
    calm = np.maximum(calm, own)
    worst, worst_at = _failed(moments, failed, solved, columns, 0, normal, when)
    lasting, lasting_at = _failed(moments, failed, solved, columns, 1, calm, busy)
    return LeadCurrents(normal, when, worst, worst_at, calm, lasting, lasting_at)


def _lasting(
    supply: Supply, moments: Moments, after: Downstream, leads: Sequence[str], phases: Sequence[Any]
) -> tuple[Floats, tuple[str, ...]]:
    """Mean current of what hangs on each lead in its busiest phase, A; all moving without phases."""
    long = [at for at, one in enumerate(phases) if one.duration_s >= HEATS_S]
    if not long:
        moving = np.array([supply.lasting_a.get(one, 0.0) for one in leads])
        return moving, ("all moving",) * len(leads)
    means = moments.phase_a[long] @ after.loads.T
    names = [moments.phases[at][0] for at in long]
    return means.max(axis=0), tuple(names[at] for at in means.argmax(axis=0).tolist())


def _shared(power: PowerNetwork, after: Downstream, leads: Sequence[str]) -> NDArray[np.bool_]:
    """Whether several packs share what hangs on a lead of one of them: it never carries all alone."""
    return np.array([any(one.source == f"{pack}.cells" for one in after.feeds[lead]
                         for packs, _ in power.groups if len(packs) > 1 for pack in packs)
                     for lead in leads], bool)  # fmt: skip


def _own(
    power: PowerNetwork, after: Downstream, leads: Sequence[str], slices: Any, shared: NDArray[np.bool_]
) -> tuple[Floats, tuple[str, ...]]:
    """The worst moment of what hangs on each lead alone, A, in words; the strongest at stall at least."""
    known, amperes = shares_of(slices.duties), currents(power.consumers).a
    found: dict[frozenset[str], tuple[float, str]] = {}
    for row, lead in enumerate(leads):
        domains, hung = after.domains[lead], np.flatnonzero(after.loads[row])
        if domains in found or shared[row] or not len(hung):
            continue
        own = amperes[hung]
        strongest = float(own[:, 0].sum() + (own[:, 2] - own[:, 0]).max())
        found[domains] = strongest, "its own stall"
        if len(hung) > 1:
            some = [power.consumers[at] for at in hung]
            states, words = peak_weights(some, domains, slices.phases, known, own)
            found[domains] = max((float((states * own).sum()), words), found[domains])
    own_moments = [found.get(after.domains[lead], (0.0, "")) for lead in leads]
    return np.array([a for a, _ in own_moments]), tuple(words for _, words in own_moments)


def _failed(
    moments: Moments, failed: Failures, solved: Floats, columns: Sequence[int], which: int,
    normal: Floats, when: Sequence[str],
) -> tuple[Floats, tuple[str, ...]]:  # fmt: skip
    """The most that a single failure, or a pack that is alone, makes of a normal current."""
    kind = ("peak-", "warm-")[which]
    alone = [at for at, one in enumerate(moments.moments) if one.name.startswith(kind)]
    most, at = failed.most_a[which, columns], failed.most_at[which, columns]
    rows: tuple[FailureRow, ...] = (failed.none, *failed.rows)
    words = [f"{rows[one].element} {rows[one].kind}" if one else "" for one in at.tolist()]
    for row in alone:
        more = solved[row] > MORE * most
        words = [moments.moments[row].label if is_more else word
                 for is_more, word in zip(more, words, strict=True)]  # fmt: skip
        most = np.where(more, solved[row], most)
    counts = (most > MORE * normal + LEAST_A) & np.array([bool(one) for one in words], bool)
    named = tuple(word if use else usual for use, word, usual in zip(counts, words, when, strict=True))
    return np.where(counts, most, normal), named
