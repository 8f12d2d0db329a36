"""The server killed at random moments while it is edited: `python -m tests.workbench.killed_server 100`.

One process holds the address and forks the server; clients edit until it is killed. After each death
the folder must be readable, with every edit that was answered as accepted, and be served again.
"""

from __future__ import annotations

import os
import random
import signal
import socket
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from threading import Thread

import httpx

from hardstand.description.storage import Folder
from hardstand.workbench import Bench, Gate
from hardstand.workbench.bench import Held
from hardstand.workbench.serving import alone, listening, serve
from tests.small_aeroplane import laid_out
from tests.workbench.robust.clients_run import FIELDS, MANY, Edit, lost, on_disk

CLIENTS, LONGEST_S = 3, 0.6


def forked(folder: Path, gate: Gate, at: socket.socket) -> int:
    """A process that serves the folder, as `hardstand serve` does; returns its id once it answers."""
    said, says = os.pipe()
    child = os.fork()
    if child:
        os.close(says)
        with os.fdopen(said, "rb") as told:
            assert told.read(1) == b"!", "the server did not start"
        return child
    try:
        with alone(Folder(folder), "here"):
            serve(Bench(Folder(folder)), gate, at, lambda: (os.write(says, b"!"), None)[1])
    finally:
        os._exit(1)


def edit_until_gone(origin: str, cookie: str, address: str, seen: int, accepted: list[Edit]) -> None:
    """Edit one field again and again; returns once the server is gone."""
    headers = {"origin": origin, "cookie": cookie}
    with httpx.Client(base_url=origin, headers=headers, timeout=10.0) as client:
        while True:
            form = {"address": address, "old": str(seen), "new": str(seen + 1)}
            try:
                answer = client.post("/change", data=form)
            except httpx.TransportError:
                return
            assert answer.status_code == 303, answer.text[:300]
            accepted.append((address, seen, seen + 1))
            seen += 1


def one_death(folder: Path, gate: Gate, session: str, chance: random.Random, accepted: list[Edit]) -> None:
    """Serve, edit, kill."""
    with listening("127.0.0.1", int(next(iter(gate.hosts)).rpartition(":")[2])) as at:
        origin = f"http://127.0.0.1:{at.getsockname()[1]}"
        child = forked(folder, gate, at)
        stand = on_disk(folder)
        threads = [Thread(target=edit_until_gone, args=(origin, f"{gate.cookie}={session}", one, stand[one], accepted))
                   for one in FIELDS[:CLIENTS]]  # fmt: skip
        for one in threads:
            one.start()
        time.sleep(chance.uniform(0.02, LONGEST_S))
        os.kill(child, signal.SIGKILL)
        assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL
        at.close()  # or those who still ask would wait for an answer
        for one in threads:
            one.join()


def run(deaths: int, folder: Path, say: Callable[[str], None] = lambda _: None) -> tuple[int, list[str]]:
    """So many deaths; how many edits were accepted, and everything that must not be."""
    laid_out(folder, MANY)
    with listening("127.0.0.1", 0) as at:
        port = at.getsockname()[1]
    gate = Gate([f"http://127.0.0.1:{port}"])
    session = gate.enter(gate.code) or ""
    chance = random.Random(8)  # noqa: S311 it chooses moments, not secrets
    accepted: list[Edit] = []
    faults: list[str] = []
    Bench(Folder(folder))  # what a first assessment loads is loaded before the forks
    for number in range(deaths):
        one_death(folder, gate, session, chance, accepted)
        shown = Bench(Folder(folder)).now
        faults += [] if isinstance(shown, Held) else [f"death {number}: the folder cannot be read"]
        faults += lost(folder, accepted)
        say(f"{number + 1} deaths, {len(accepted)} edits, {len(faults)} faults")
        if faults:
            break
    return len(accepted), faults


def main() -> int:
    """Kill it as often as is asked for; prints what came of it; 1 where an edit was lost."""
    deaths = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    with tempfile.TemporaryDirectory() as name:
        accepted, faults = run(deaths, Path(name) / "heron", lambda words: print(words, file=sys.stderr))  # noqa: T201
    print("\n".join([f"deaths {deaths}, accepted {accepted}, faults {len(faults)}", *faults[:20]]))  # noqa: T201
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
