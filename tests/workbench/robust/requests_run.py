"""Many requests to the workbench, every one judged; what came of them as a table."""

from __future__ import annotations

import asyncio
import warnings
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from hypothesis import HealthCheck, Phase, given, seed, settings

from hardstand.description.storage import Folder
from hardstand.workbench import Bench, Gate, make_app
from hardstand.workbench.bench import Held
from tests.small_aeroplane import TEXT, laid_out
from tests.workbench.asking import ORIGIN, demo
from tests.workbench.robust.calling import Answer, Call, put
from tests.workbench.robust.chance import CHANCES, Chance
from tests.workbench.robust.judging import SECRET, state_of, wrongs
from tests.workbench.robust.outside import watched
from tests.workbench.robust.prompt_work import PromptWork, answers
from tests.workbench.robust.wishes import ROUTES
from tests.workbench.robust.wrongs import WRONGS, valid


@dataclass
class Tally:
    """Counts by route and status, how many were valid and edited, and everything that must not be."""

    statuses: Counter[tuple[str, int]] = field(default_factory=Counter)
    kinds: Counter[str] = field(default_factory=Counter)
    edits: int = 0
    faults: list[str] = field(default_factory=list)

    @property
    def count(self) -> int:
        """How many requests were put."""
        return sum(self.statuses.values())

    def of_route(self, route: str) -> int:
        """How many of one route."""
        return sum(count for (one, _), count in self.statuses.items() if one == route)

    def table(self) -> str:
        """The table as it is printed."""
        known = sorted({status for _, status in self.statuses})
        lines = [f"{'route':24}{'all':>7}" + "".join(f"{status:>7}" for status in known)]
        for route in ROUTES:
            by = "".join(f"{self.statuses[route, status] or '':>7}" for status in known)
            lines.append(f"{route:24}{self.of_route(route):7}{by}")
        kinds = ", ".join(f"{kind} {count}" for kind, count in sorted(self.kinds.items()))
        lines.append(f"all {self.count}: {kinds}; edits written {self.edits}; faults {len(self.faults)}")
        return "\n".join([*lines, *self.faults[:40]])


class Served:
    """An aeroplane beside a folder that is none of ours, with the application over it and a session."""

    def __init__(self, around: Path, *, small: bool, text: str) -> None:
        beside = around / "beside"
        beside.mkdir(parents=True)
        (beside / "secret.toml").write_text(SECRET, encoding="utf-8")
        self.beside = beside
        self.folder = laid_out(around / "heron", text) if small else demo(around)
        self.bench = Bench(Folder(self.folder))
        if small:
            found, compared = answers(self.bench)
            self.bench.seeking, self.bench.comparing = PromptWork(found), PromptWork(compared)
        else:
            self.bench.seeking, self.bench.comparing = PromptWork({}), PromptWork({})
        self.gate = Gate([ORIGIN, "http://localhost:8620"])
        self.session = self.gate.enter(self.gate.code) or ""
        self.app = make_app(self.bench, self.gate)
        self.loop = asyncio.new_event_loop()

    def close(self) -> None:
        """End the loop and its threads."""
        self.loop.run_until_complete(self.loop.shutdown_default_executor())
        self.loop.close()

    def told(self) -> tuple[object, ...]:
        """What a request may alter besides files."""
        now = self.bench.now
        return (now.digest, now.revision, self.bench.seeking.now.number, self.bench.seeking.now.phase,
                self.bench.comparing.now.number, self.bench.comparing.now.phase, self.gate.code)  # fmt: skip

    def put(self, call: Call) -> Answer:
        """The answer to a call; where it opened a session, that is the one from now on."""
        answer = self.loop.run_until_complete(put(self.app, call))
        for one in answer.headers.get("set-cookie", []):
            if one.startswith(f"{self.gate.cookie}="):
                self.session = one.partition("=")[2].partition(";")[0]
        return answer


@contextmanager
def served(around: Path, *, small: bool = True, text: str = TEXT) -> Iterator[Served]:
    """A served aeroplane as long as the context lasts."""
    made = Served(around, small=small, text=text)
    try:
        yield made
    finally:
        made.close()


def judge(served: Served, call: Call, tally: Tally, outside: list[str]) -> None:
    """Put one call and look at everything that must hold after it."""
    files, told = state_of(served.folder), served.told()
    answer = served.put(call)
    changed = state_of(served.folder) != files
    found = list(wrongs(call, answer, changed=changed, told=served.told() != told))
    if outside:
        found.append(f"written outside: {outside[:3]}")
        outside.clear()
    if changed and not isinstance(served.bench.now, Held):
        found.append("the folder cannot be read any more")
    tally.faults += [f"{one} <- {call}" for one in found]
    tally.statuses[call.route, answer.status] += 1
    tally.kinds[call.why or "valid"] += 1
    tally.edits += changed


def round_of(served: Served, each: int, number: int, tally: Tally) -> None:
    """So many requests of every route: one in three valid, the others wrong in one way."""
    with watched(served.folder) as outside:
        for at, route in enumerate(ROUTES):
            _ask(served, route, each, number * len(ROUTES) + at, lambda call: judge(served, call, tally, outside))
    left = [one.name for one in served.beside.parent.rglob("*") if one.is_file() and served.folder not in one.parents]
    if left != ["secret.toml"] or (served.beside / "secret.toml").read_text("utf-8") != SECRET:
        tally.faults.append(f"beside the folder there is {left}")
    if Bench(Folder(served.folder)).now.digest != served.bench.now.digest:
        tally.faults.append("what is shown is not what is on the disk")


def _ask(served: Served, route: str, each: int, chance: int, put_one: Callable[[Call], None]) -> None:
    made = 0

    @seed(chance)
    @settings(max_examples=each, phases=[Phase.generate], database=None, deadline=None,
              suppress_health_check=list(HealthCheck))  # fmt: skip
    @given(CHANCES)
    def ask(chance: Chance) -> None:
        nonlocal made
        made += 1
        put_one(one_call(served, route, chance, wrong=made % 3 != 0))

    ask()


def one_call(served: Served, route: str, chance: Chance, *, wrong: bool) -> Call:
    """A call of a route, as a page makes it or wrong in one way."""
    call = valid(route, served.bench, served.gate, served.session, chance)
    if not wrong:
        return call
    ways = [one for one in WRONGS if call.method == "POST" or one not in
            ("origin", "kind", "stale", "binary", "malformed", "large")]  # fmt: skip
    why = chance.pick(ways)
    made = WRONGS[why](call, chance)
    return Call(made.route, made.method, made.path, made.query, made.headers, made.pieces, why)


def run(count: int, around: Path, say: Callable[[str], None] = lambda _: None) -> Tally:
    """So many requests, one in twelve to the demo; the folder is laid out anew in every round."""
    tally = Tally()
    each = max(3, min(20, -(-count // len(ROUTES))))
    number = 0
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        while tally.count < count:
            number += 1
            with served(around / str(number), small=number % 12 != 6) as made:
                round_of(made, each, number, tally)
            say(f"{tally.count} requests, {len(tally.faults)} faults")
    return tally
