"""A program that writes an aeroplane's folder and is killed while it does; used by `test_killing`.

    killing.py write KIND FOLDER      one write-back, after a system call that marks its beginning
    killing.py steps KIND FOLDER      killed before each of its calls to the system in turn
    killing.py instants KIND FOLDER   killed 100 times at a random instant

The last two fork one process for each death and check after it that the folder holds exactly the
old or exactly the new texts, that it can be written again, and print how often which was found.
"""

from __future__ import annotations

import json
import os
import random
import shutil
import signal
import sys
import time
import tomllib
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

from hardstand.changes import Change
from hardstand.description.revisions import edit, history, record, undo
from hardstand.description.storage import Folder

MAIN = "format = 1\n\n[[item]]\nid = 'a'\nat_mm = [{}, 2]  # a comment\n" + "# filling\n" * 400
OLD = {
    "aeroplane.toml": MAIN.format(1),
    "measurements.toml": "[[measurement]]\nid = 'm'\n",
    "parts/own.toml": "[[part]]\nid = 'p'\nmass_g = 60\n",
}
NEW = {
    "one": OLD | {"aeroplane.toml": MAIN.format(5)},
    "several": {
        "aeroplane.toml": MAIN.format(5),
        "parts/more.toml": "[[part]]\nid = 'q'\n",
        "parts/own.toml": "[[part]]\nid = 'p'\nmass_g = 62\n",
    },
}
CALLS = ["open", "write", "fsync", "close", "replace", "unlink", "mkdir", "chmod"]
MARK = "/this-path-marks-the-beginning"


def lay_out(path: Path) -> None:
    """The folder with the old texts and one revision of them."""
    shutil.rmtree(path, ignore_errors=True)
    folder = Folder(path)
    folder.write(OLD)
    record(folder, "laid out")


def write_back(kind: str, path: Path) -> None:
    """The write-back under test: one file through a change, or several files and a removal."""
    folder = Folder(path)
    if kind == "one":
        edit(folder, [Change("item.a.at_mm", [1, 2], [5, 2])], "moved")
        return
    folder.texts()
    gone = {"measurements.toml": None}
    folder.write({**NEW[kind], **gone})
    record(folder, "several at once")


def check(kind: str, path: Path, *, again: bool = True) -> str:
    """Which set the folder holds; an AssertionError where it is neither or can't be used `again`."""
    found = Folder(path).texts()
    for text in found.values():
        tomllib.loads(text)
    assert found in (OLD, NEW[kind]), sorted(found)
    result = "old" if found == OLD else "new"
    if not again:
        return result
    folder = Folder(path)
    assert folder.texts() == found
    assert record(folder).revision is not None
    assert history(folder)[-1].sha256 == folder.digest()
    position = tomllib.loads(found["aeroplane.toml"])["item"][0]["at_mm"]
    edit(folder, [Change("item.a.at_mm", position, [9, 9])], "again")
    assert undo(folder).texts == found
    return result


def die() -> None:
    """Be killed, as by a power cut: nothing is tidied up."""
    os.kill(os.getpid(), signal.SIGKILL)


def die_before(number: int, *, torn: bool) -> None:
    """Arrange to be killed before the `number`th call, or half-way in the `number`th that writes."""
    made = 0

    def counting(name: str, real: Callable[..., Any]) -> Callable[..., Any]:
        def call(*args: Any, **kwargs: Any) -> Any:
            nonlocal made
            made += 1
            if made == number:
                if torn:
                    real(args[0], bytes(args[1])[: len(args[1]) // 2])
                die()
            return real(*args, **kwargs)

        return call

    for name in ["write"] if torn else CALLS:
        setattr(os, name, counting(name, getattr(os, name)))


def in_child(action: Callable[[], None]) -> int:
    """Start a process that does the action and ends with status 0; returns its id."""
    child = os.fork()
    if child == 0:
        status = 1
        try:
            action()
            status = 0
        finally:
            os._exit(status)
    return child


def steps(kind: str, path: Path) -> Counter[str]:
    """Killed before every call in turn, then half-way through every call that writes."""
    seen: Counter[str] = Counter()
    for torn in (False, True):
        number, status = 0, -1
        while status != 0:
            number += 1
            lay_out(path)

            def action(number: int = number, torn: bool = torn) -> None:
                die_before(number, torn=torn)
                write_back(kind, path)

            status = os.waitstatus_to_exitcode(os.waitpid(in_child(action), 0)[1])
            assert status in (0, -signal.SIGKILL), status
            result = check(kind, path)
            assert status != 0 or result == "new"
            seen[result] += 1
        seen["writes" if torn else "calls"] = number - 1
    return seen


def instants(kind: str, path: Path, deaths: int = 100) -> Counter[str]:
    """Killed at random instants, spread over the time that a write-back takes."""
    seen: Counter[str] = Counter()
    chance = random.Random(20)  # noqa: S311 it chooses moments, not secrets
    lay_out(path)
    begin = time.perf_counter()
    write_back(kind, path)
    takes_s = 1.5 * (time.perf_counter() - begin) + 0.002
    while seen["old"] + seen["new"] < deaths:
        lay_out(path)
        child = in_child(lambda: write_back(kind, path))
        time.sleep(chance.uniform(0.0, takes_s))
        os.kill(child, signal.SIGKILL)
        killed = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) != 0
        result = check(kind, path, again=False)
        seen[result if killed else "finished first"] += 1
        if not killed:  # it was over: the machine is quick today
            takes_s *= 0.97
    return seen


if __name__ == "__main__":
    command, which, where = sys.argv[1], sys.argv[2], Path(sys.argv[3])
    if command == "write":
        Path(MARK).exists()
        write_back(which, where)
    else:
        print(json.dumps({"steps": steps, "instants": instants}[command](which, where)))  # noqa: T201
