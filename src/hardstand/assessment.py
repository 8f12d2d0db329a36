"""The graph of engines: runs every node once, in the order of its needs, and remembers results.

The `Assessment` is the one value that every view shows. A result is remembered by the content of
the slices its node reads, the results it needs and the version of its method, so that after an edit
only what depends on the edit is computed again.
"""

from __future__ import annotations

import hashlib
import pickle
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, is_dataclass
from typing import Any, Literal

from hardstand.asbuilt import AsBuilt
from hardstand.description.set_aside import SetAside
from hardstand.engines.kept import Kept
from hardstand.engines.node import Earlier, Node, Slices, Stage
from hardstand.figures import Figure, FigureSet
from hardstand.findings import Finding, worst_first

Standing = Literal["assessed", "partly", "not assessed"]
PLANNED = (
    "fit",
    "balance",
    "power",
    "harness",
    "gear",
    "controls",
    "fuel",
    "turbine",
    "radio",
    "lights",
    "bench",
    "flight",
)


@dataclass(frozen=True, slots=True)
class StageState:
    """How far one stage got, and what is missing for the rest, in words."""

    name: str
    title: str
    standing: Standing
    missing: tuple[str, ...]

    def as_json(self) -> dict[str, Any]:
        """The state as plain data."""
        return {"state": self.standing, "title": self.title, "missing": list(self.missing)}


@dataclass(frozen=True)
class Assessment:
    """Everything the engines had to say about one as-built aeroplane."""

    name: str
    findings: tuple[Finding, ...]
    stages: tuple[StageState, ...]
    results: Mapping[str, Any]
    set_aside: tuple[SetAside, ...] = ()

    def figure_sets(self) -> list[FigureSet]:
        """Every set of figures in the results, in the order the nodes ran."""
        found = [getattr(result, "figures", None) for result in self.results.values()]
        return [one for one in found if isinstance(one, FigureSet)]

    def figure(self, address: str) -> Figure:
        """One figure by address; raises KeyError with no such figure."""
        return self.set_of(address).figure(address)

    def set_of(self, address: str) -> FigureSet:
        """The set that holds a figure; raises KeyError with no such figure."""
        for one in self.figure_sets():
            if address in one.addresses:
                return one
        raise KeyError(address)

    def addresses(self) -> list[str]:
        """The addresses of all figures."""
        return [address for one in self.figure_sets() for address in one.addresses]

    def worst(self) -> str | None:
        """The worst severity among the findings, or None where there is none."""
        return self.findings[0].severity if self.findings else None

    def as_json(self) -> dict[str, Any]:
        """The assessment as plain data: the stable form of `check --json`."""
        return {
            "format": 1,
            "aeroplane": self.name,
            "findings": [one.as_json() for one in self.findings],
            "stages": {one.name: one.as_json() for one in self.stages},
            "set_aside": [one.as_json() for one in self.set_aside],
        }


def in_order(nodes: Iterable[Node]) -> list[Node]:
    """Nodes sorted so that each comes after what it needs; a circle or a gap raises ValueError."""
    waiting = {node.name: node for node in nodes}
    done: list[Node] = []
    names: set[str] = set()
    while waiting:
        ready = [node for node in waiting.values() if all(need in names for need in node.needs)]
        if not ready:
            raise ValueError(
                f"nodes wait for one another or for what does not exist: {sorted(waiting)}"
            )
        for node in ready:
            done.append(node)
            names.add(node.name)
            del waiting[node.name]
    return done


class Memory:
    """Results remembered within one process, by content. Keeps the latest `most` of them."""

    def __init__(self, most: int = 400) -> None:
        self._kept: dict[str, Any] = {}
        self._most = most
        self._parts: dict[str, Kept] = {}
        self._images: dict[int, tuple[object, bytes]] = {}
        self._settled: dict[str, tuple[str, Any]] = {}

    def get_or(self, key: str, make: Callable[[], Any]) -> Any:
        """The remembered result of a key, or what `make` returns, remembered from now on."""
        result = self._kept.pop(key) if key in self._kept else make()
        self._kept[key] = result  # the latest used stands last
        if len(self._kept) > self._most:
            del self._kept[next(iter(self._kept))]
        return result

    def parts_of(self, node: str) -> Kept:
        """What a node keeps of its own last run."""
        return self._parts.setdefault(node, Kept())

    def settled(self, node: str, key: str, result: Any) -> tuple[str, Any]:
        """The key and result of a node's last run where it came to the same, else those given.

        What needs a result may go by the key of an equal one: it would make the same of either. Equal
        mappings in another order are not the same: rows and findings come in that order.
        """
        last = self._settled.get(node)
        if last is None or last[1] != result or not _in_one_order(last[1], result):
            last = self._settled[node] = (key, result)
        return last

    def images(self, slices: Mapping[str, object]) -> dict[str, str]:
        """The digest of each slice; a row that is the same object as the last time keeps its own."""
        before, self._images = self._images, {}
        return {name: self._image(content, before) for name, content in slices.items()}

    def _image(self, content: object, before: Mapping[int, tuple[object, bytes]]) -> str:
        if not isinstance(content, tuple):
            return _digest(content)
        whole = hashlib.sha256(b"%d rows" % len(content))
        for row in content:
            known = before.get(id(row)) or self._images.get(id(row))
            if known is None:  # an id is that of a row kept alive beside it
                known = (row, hashlib.sha256(pickle.dumps(row, protocol=5)).digest())
            self._images[id(row)] = known
            whole.update(known[1])
        return whole.hexdigest()


def _in_one_order(one: Any, other: Any) -> bool:
    """Whether all mappings in two equal values have their keys in the same order.

    >>> _in_one_order(({"a": 1, "b": 2},), ({"b": 2, "a": 1},)), _in_one_order({"a": 1}, {"a": 1})
    (False, True)
    """
    if one is other:
        return True
    if isinstance(one, Mapping):
        return list(one) == list(other) and all(map(_in_one_order, one.values(), other.values()))
    if isinstance(one, tuple | list):
        return all(map(_in_one_order, one, other))
    if is_dataclass(one):
        return all(_in_one_order(getattr(one, name), getattr(other, name))
                   for name in one.__dataclass_fields__)  # fmt: skip
    return True


def _digest(*parts: object) -> str:
    # pickle is only ever written here, never read: it is a fast, stable image of frozen content
    return hashlib.sha256(pickle.dumps(parts, protocol=5)).hexdigest()


def assess(
    asbuilt: AsBuilt,
    stages: Sequence[Stage],
    memory: Memory | None = None,
    progress: Callable[[str], None] | None = None,
) -> Assessment:
    """Run every stage over an as-built aeroplane.

    `memory` carries results from an earlier run; `progress` is told each node's name before it runs.
    """
    memory = memory if memory is not None else Memory()
    results: dict[str, Any] = {}
    keys: dict[str, str] = {}
    nodes = in_order(node for stage in stages for node in stage.nodes)
    # each slice by itself and once: many nodes read the items, and they are the most
    read = dict.fromkeys(one for node in nodes for one in node.reads)
    content = memory.images({one: getattr(asbuilt, one) for one in read})
    for node in nodes:
        keys[node.name] = _digest(
            node.name,
            node.version,
            [content[one] for one in node.reads],
            [keys[need] for need in node.needs],
        )
        if progress is not None:
            progress(node.name)
        results[node.name] = memory.get_or(
            keys[node.name],
            lambda node=node: node.run(  # type: ignore[misc]
                Slices(asbuilt, node.reads, node.name),
                Earlier(results, node.needs, node.name),
                *((memory.parts_of(node.name),) if node.keeps else ()),
            ),
        )
        if node.settles:
            keys[node.name], results[node.name] = memory.settled(
                node.name, keys[node.name], results[node.name]
            )
    findings = [one for stage in stages for one in results.get(f"{stage.name}.findings", ())]
    return Assessment(
        asbuilt.aeroplane.name,
        tuple(worst_first(_accepted(findings, asbuilt, stages))),
        _states(asbuilt, stages),
        results,
        asbuilt.set_aside,
    )


def _accepted(
    findings: list[Finding], asbuilt: AsBuilt, stages: Sequence[Stage]
) -> list[Finding]:
    """The findings with those lowered that the builder has taken on, where their rule allows it."""
    allowed = {rule.code for stage in stages for rule in stage.rules if rule.acceptable}
    by_what = {(one.code, frozenset(one.about)): one for one in reversed(asbuilt.accepts)}
    taken = []
    for one in findings:
        accept = by_what.get((one.code, frozenset(one.about))) if one.code in allowed else None
        taken.append(one if accept is None else one.accepted_by(accept.by, accept.reason))
    return taken


def _states(asbuilt: AsBuilt, stages: Sequence[Stage]) -> tuple[StageState, ...]:
    known = {stage.name: stage for stage in stages}
    states = []
    for name in PLANNED:
        stage = known.get(name)
        if stage is None or not stage.described(asbuilt):
            title = stage.title if stage else name
            states.append(StageState(name, title, "not assessed", ("nothing described",)))
            continue
        missing = stage.missing(asbuilt)
        states.append(StageState(name, stage.title, "partly" if missing else "assessed", missing))
    return tuple(states)
