"""Tiny aeroplanes as text, and the fit engine run on them alone."""

from __future__ import annotations

from typing import Any

from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import in_order
from hardstand.description.read import read_texts
from hardstand.engines.fit import STAGE
from hardstand.engines.node import Earlier, Slices, Stage
from hardstand.findings import Finding

HEAD = """
format = 1
[aeroplane]
name = "Small"
"""
AROUND = """
[[bay]]
id = "body"
[[section]]
id = "front"
bay = "body"
x_mm = -2000
half_width_mm = 2000
top_mm = 2000
bottom_mm = -2000
[[section]]
id = "back"
bay = "body"
x_mm = 2000
half_width_mm = 2000
top_mm = 2000
bottom_mm = -2000
[[tray]]
id = "far-tray"
outline_mm = [[1500, 1500], [1600, 1500], [1600, 1600], [1500, 1600]]
top_z_mm = 1500
"""


def part(id_: str, kind: str = "other", size: str = "[20, 20, 20]", more: str = "") -> str:
    """A part of one's own, measured."""
    return f'[[part]]\nid = "{id_}"\nkind = "{kind}"\nsize_mm = {size}\nmass_g = 10\n{more}\n'


def item(id_: str, part_id: str, at: str, more: str = "") -> str:
    """An item at a place."""
    return f'[[item]]\nid = "{id_}"\npart = "{part_id}"\nat_mm = {at}\n{more}\n'


def built(body: str, parts: str, around: str = AROUND) -> AsBuilt:
    """The aeroplane with these rows, as built."""
    texts = {"aeroplane.toml": HEAD + around + body, "parts/own.toml": parts}
    return build(read_texts(texts).description)


def results(aeroplane: AsBuilt, head: Any = None) -> dict[str, Any]:
    """Every result of the fit engine; `head` stands for the balance's headline."""
    found: dict[str, Any] = {"balance.headline": head}
    alone = Stage(STAGE.name, STAGE.title, STAGE.nodes, (), STAGE.described, STAGE.missing)
    need = "balance.headline"
    known = [node for node in alone.nodes if need not in node.needs]
    for node in [*in_order(_without_findings(known)), *_last(alone)]:
        slices = Slices(aeroplane, node.reads, node.name)
        found[node.name] = node.run(slices, Earlier(found, node.needs, node.name))
    return found


def _without_findings(nodes: list[Any]) -> list[Any]:
    return [node for node in nodes if not node.name.endswith(".findings")]


def _last(stage: Stage) -> list[Any]:
    after = [node for node in stage.nodes if "balance.headline" in node.needs]
    return after + [node for node in stage.nodes if node.name.endswith(".findings")]


def findings(aeroplane: AsBuilt, head: Any = None) -> list[Finding]:
    """What the fit engine says about an aeroplane."""
    return list(results(aeroplane, head)["fit.findings"])


def figure(found: dict[str, Any], address: str) -> Any:
    """One figure of the fit engine."""
    for result in found.values():
        figures = getattr(result, "figures", None)
        if figures is not None and address in figures.addresses:
            return figures.figure(address)
    raise KeyError(address)
