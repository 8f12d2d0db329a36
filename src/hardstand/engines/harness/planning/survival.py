"""Which outputs have no power or no command any more when one thing fails."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping

from hardstand.engines.harness.feeding import is_pack, power_ways
from hardstand.engines.harness.model import Feed, Netlist
from hardstand.engines.harness.signals import leads_between, signal_ways, sources

Steps = dict[str, list[tuple[str, frozenset[str]]]]  # from, to, and what has to be whole for it


class Survival:
    """A netlist without its plugs, asked again and again what is left without one thing.

    What may fail: an item, a lead, a joint, or one rail (a domain) of an item.
    """

    def __init__(self, net: Netlist) -> None:
        self.net = net
        self.power: Steps = {}
        for feed in power_ways(net):
            need = frozenset((self._item(feed.source), self._item(feed.target), *_between(feed)))
            self.power.setdefault(feed.source, []).append((feed.target, need))
        self.hops: Steps = {}
        for item, ways in signal_ways(net).items():
            for start, goal, far in ways:
                need = frozenset((item, far, *leads_between(net, start, goal)))
                self.hops.setdefault(item, []).append((far, need))
        self.packs = [one for one in net.domains if is_pack(net, one)]
        self.talkers = sources(net)
        self.inside: dict[str, list[str]] = {}
        for one in net.domains:
            self.inside.setdefault(self._item(one), []).append(one)

    def _item(self, domain: str) -> str:
        port = self.net.ports[self.net.domains[domain][0]]
        return port.item or port.end

    def alive(self, lost: str, outputs: Iterable[tuple[str, str]]) -> set[tuple[str, str]]:
        """Of outputs by item and rail those that have power and a command while one thing is lost."""
        start = [one for one in self.packs if lost not in (one, self._item(one))]
        rails = _reached(start, self.power, lost)
        fed = {self._item(one) for one in rails}
        onward = {item: [one for one in steps if one[0] in fed] for item, steps in self.hops.items()}
        heard = _reached([one for one in self.talkers if one in fed and one != lost], onward, lost)
        return {(item, rail) for item, rail in outputs if item in heard and rail in rails}

    def behind(self, outputs: Iterable[tuple[str, str]]) -> list[str]:
        """Everything that outputs hang on: items, leads, joints and rails, in order of name."""
        back: Steps = {}
        for steps in (self.power, self.hops):
            for source, ways in steps.items():
                for target, need in ways:
                    back.setdefault(target, []).append((source, need))
        found: set[str] = set()
        seen = {one for output in outputs for one in output}
        waiting = deque(sorted(seen))
        while waiting:
            here = waiting.popleft()
            found.add(here)
            rails = [(one, frozenset[str]()) for one in self.inside.get(here, ())]
            for source, need in (*back.get(here, ()), *rails):
                found |= need
                if source not in seen:
                    seen.add(source)
                    waiting.append(source)
        return sorted(found)



def _between(feed: Feed) -> tuple[str, ...]:
    return (*feed.leads, *(end.partition(".")[0] for end in feed.ends[1:-1]))


def _reached(
    start: Iterable[str], steps: Mapping[str, list[tuple[str, frozenset[str]]]], lost: str
) -> set[str]:
    seen = set(start)
    waiting = deque(seen)
    while waiting:
        for far, need in steps.get(waiting.popleft(), ()):
            if far not in seen and far != lost and lost not in need:
                seen.add(far)
                waiting.append(far)
    return seen
