"""Many clients that edit at once, and what the history must say of every edit that was accepted."""

from __future__ import annotations

import asyncio
import re
import time
import tomllib
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from urllib.parse import urlencode

from hardstand.description.history_store import HistoryStore
from hardstand.description.storage import Folder
from tests.small_aeroplane import TEXT
from tests.workbench.asking import ORIGIN, words
from tests.workbench.robust.calling import FORM, Call, put
from tests.workbench.robust.requests_run import Served, served

FIELDS = tuple(f"mass.m{number}.mass_g" for number in range(10))
MANY = TEXT + "".join(f'\n[[mass]]\nid = "m{number}"\nmass_g = 1\nat_mm = [600, 0, 0]\n' for number in range(10))
Edit = tuple[str, int, int]  # address, the value that the client saw, the one it put


@dataclass
class Edits:
    """Edits that were accepted and how many were refused as stale; everything that must not be."""

    accepted: list[Edit] = field(default_factory=list)
    stale: int = 0
    faults: list[str] = field(default_factory=list)


def transitions(folder: Path) -> Counter[Edit]:
    """Every step of a field's value from one revision of the history to the next."""
    store = HistoryStore(Folder(folder).state / "history")
    found: Counter[Edit] = Counter()
    before: Mapping[str, int] = {}
    for one in store.revisions():
        texts = store.texts(one)
        assert texts is not None, one.name
        rows = tomllib.loads(texts["aeroplane.toml"])["mass"]
        now = {f"mass.{row['id']}.mass_g": row["mass_g"] for row in rows}
        found.update((name, before[name], now[name]) for name in before if now[name] != before[name])
        before = now
    return found


def on_disk(folder: Path) -> dict[str, int]:
    """The masses as the file has them."""
    rows = tomllib.loads((folder / "aeroplane.toml").read_text("utf-8"))["mass"]
    return {f"mass.{row['id']}.mass_g": row["mass_g"] for row in rows}


def lost(folder: Path, accepted: list[Edit]) -> list[str]:
    """What is not as it must be: each accepted edit stands in the history once, and the chain is whole."""
    steps = transitions(folder)
    faults = [f"accepted, not in the history: {one}" for one in accepted if steps[one] != 1]
    final = on_disk(folder)
    for name in FIELDS:
        value, known = 1, {old: new for one, old, new in steps if one == name}
        while value in known:
            value = known.pop(value)
        if known or value != final[name]:
            faults.append(f"{name}: the history ends at {value}, the file has {final[name]}; besides {known}")
    return faults


async def _client(made: Served, number: int, until: float, values: count[int], edits: Edits) -> None:
    address = FIELDS[number % len(FIELDS)]
    seen = 1
    headers = [(b"host", ORIGIN.partition("://")[2].encode()), (b"origin", ORIGIN.encode()),
               (b"content-type", FORM.encode()), (b"hx-request", b"true"),
               (b"cookie", f"{made.gate.cookie}={made.session}".encode())]  # fmt: skip
    while time.monotonic() < until:
        new = next(values)
        body = urlencode({"address": address, "old": seen, "new": new, "leave": "drawing,notes,title_block"}).encode()
        answer = await put(made.app, Call("", "POST", "/change", b"", headers, (body,)))
        said = words(answer.text)
        if answer.status == 200 and "Written as" in said:
            edits.accepted.append((address, seen, new))
            seen = new
            continue
        both = re.search(r"You saw (\d+)\.? It is now (\d+)", said)
        if answer.status != 409 or both is None or int(both[1]) != seen or int(both[2]) == seen:
            edits.faults.append(f"{answer.status} {answer.raised} {said[:200]} (saw {seen})")
            return
        edits.stale += 1
        seen = int(both[2])


def run(clients: int, seconds: float, around: Path) -> Edits:
    """So many clients, each editing one of ten fields with the value that it saw last."""
    edits, values = Edits(), count(2)
    with served(around, text=MANY) as made:
        until = time.monotonic() + seconds

        async def all_of_them() -> None:
            await asyncio.gather(*(_client(made, number, until, values, edits) for number in range(clients)))

        made.loop.run_until_complete(all_of_them())
        edits.faults += lost(made.folder, edits.accepted)
        if sum(transitions(made.folder).values()) != len(edits.accepted):
            edits.faults.append("the history has edits that were never accepted")
        if made.bench.held().digest != Folder(made.folder).digest():
            edits.faults.append("what is shown is not what is on the disk")
    return edits
