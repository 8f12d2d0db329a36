"""Routes after an edit, with what was kept from before, are those of a fresh start."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from hardstand.asbuilt import AsBuilt, build
from hardstand.cli.begin import demo_texts
from hardstand.description.read import read_texts
from hardstand.engines.harness import STAGE
from hardstand.engines.kept import Kept
from hardstand.engines.node import Earlier, Slices
from tests.engines.harness.test_seeded_mistakes import FAR_HOLE
from tests.engines.harness.wired import lead, mistaken
from tests.engines.test_edits import image

BEFORE = ("harness.circuit", "harness.netlist", "harness.supply")


def routes_of(asbuilt: AsBuilt, kept: Kept | None, high: set[str]) -> Any:
    """What the node returns; `high` are leads given a high current."""
    results: dict[str, Any] = {}
    nodes = {one.name: one for one in STAGE.nodes}
    for name in (*(one for one in BEFORE if one in nodes), "harness.routes"):
        node = nodes[name]
        given = Slices(asbuilt, node.reads, name), Earlier(results, node.needs, name)
        results[name] = node.run(*given, kept) if name == "harness.routes" else node.run(*given)
        if name == "harness.supply":
            much = dict.fromkeys(high, 9.0)
            results[name] = replace(results[name], lasting_a={**results[name].lasting_a, **much})
    return results["harness.routes"]


def moved(asbuilt: AsBuilt, random: np.random.Generator) -> AsBuilt:
    """The same with an item moved, a keep-out left out, or a limit changed."""
    items, zones = list(asbuilt.items), list(asbuilt.keep_outs)
    k = int(random.integers(len(items)))
    by = random.choice([0.1, 3.0, 40.0, 300.0]) * random.standard_normal(3)
    how = random.random()
    if how < 0.7 or not zones:
        x, y, z = np.add(items[k].centre_mm, by.round(1)).tolist()
        items[k] = replace(items[k], centre_mm=(x, y, z))
    elif how < 0.85:
        return replace(asbuilt, keep_outs=tuple(one for one in zones if one is not zones[k % len(zones)]))
    else:
        limit = asbuilt.limits["fit.hot-gap"]
        low = float(random.integers(5, 60))
        return replace(asbuilt, limits={**asbuilt.limits, limit.id: replace(limit, low=low)})
    return replace(asbuilt, items=tuple(items))


@pytest.mark.parametrize("seed", range(3))
def test_routes_of_the_demo_after_any_moves_are_those_of_a_fresh_start(seed: int) -> None:
    """To the bit, over a chain of edits, with leads that keep from aerials among them."""
    random = np.random.default_rng(seed)
    asbuilt = build(read_texts(demo_texts("as-built")).description)
    kept = Kept()
    for step in range(5):
        high = {"H07", "H15"} if step in (1, 2, 4) else set()
        assert image(routes_of(asbuilt, kept, high)) == image(routes_of(asbuilt, None, high))
        asbuilt = moved(asbuilt, random)


def test_a_lead_through_an_opening_is_kept_as_a_fresh_start_has_it() -> None:
    """The same where leads have to go through openings, with items moved about."""
    random = np.random.default_rng(7)
    asbuilt = build(read_texts(mistaken(FAR_HOLE, lead("S1", 'via = ["far-hole"]'))).description)
    kept = Kept()
    for _ in range(8):
        found = routes_of(asbuilt, kept, set())
        assert found.routes["S1"].holes == ("far-hole",)
        assert image(found) == image(routes_of(asbuilt, None, set()))
        asbuilt = moved(asbuilt, random)
