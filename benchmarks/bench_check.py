"""`hardstand check` as a new process, against a process that only imports the libraries it rests on.

Run it as a script. Commands take turns, so that a machine that slows down slows all of them; each
figure is the median of several runs, and the ratios are what counts.

- remembered: nothing has changed since the last check, so its answer is read back.
- anew: nothing is remembered, every engine runs.
- edit: inside one process, as a page would have it: one item moved, to the new verdict.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

from benchmarks.ten_times import demo_folder, lay_out
from hardstand.cli import one_thread

RUNS = 9
LIBRARIES = "import numpy, scipy, pydantic, click, tomllib"
REMEMBERED_RATIO = 1.5  # the design's limits: a ratio, and seconds
ANEW_S = 3.0
EDIT_S = 1.0
DEMO_EDIT_S = 0.1


def timed(call: Callable[[], object]) -> float:
    """Seconds that a call takes."""
    start = perf_counter()
    call()
    return perf_counter() - start


def libraries() -> None:
    """A new process that imports the libraries and ends."""
    subprocess.run([sys.executable, "-c", LIBRARIES], check=True)


def check(folder: Path) -> None:
    """A new process that checks an aeroplane."""
    command = [sys.executable, "-m", "hardstand", "check", str(folder)]
    subprocess.run(command, check=False, capture_output=True)


def check_anew(folder: Path) -> None:
    """The same with nothing remembered."""
    shutil.rmtree(folder / ".hardstand", ignore_errors=True)
    check(folder)


def edits(folder: Path) -> list[float]:
    """Seconds from one changed number to the new assessment, in one process."""
    from hardstand.asbuilt import build
    from hardstand.assessment import Memory, assess
    from hardstand.description.read import read_texts
    from hardstand.description.storage import Folder
    from hardstand.stages import stages

    texts, memory, found = Folder(folder).texts(), Memory(), []
    place = re.compile(r"at_mm = \[742(\.0)?, -62\]")
    if len(place.findall(texts["aeroplane.toml"])) != 1:
        raise ValueError("the item that is to be moved does not stand where it is looked for")
    for number in range(RUNS + 1):
        moved = place.sub(f"at_mm = [{742 + 0.1 * number:g}, -62]", texts["aeroplane.toml"])
        changed = dict(texts) | {"aeroplane.toml": moved}
        found.append(
            timed(lambda: assess(build(read_texts(changed).description), stages(), memory))  # noqa: B023
        )
    return found[1:]


def main() -> int:
    """Print the table; the exit status is 1 where a limit of the design is passed."""
    one_thread()  # as the program itself does
    with TemporaryDirectory() as room:
        demo, big = Path(room, "demo"), Path(room, "big")
        shutil.copytree(demo_folder(), demo)
        lay_out(big)
        calls: dict[str, Callable[[], object]] = {
            "libraries": libraries,
            "demo, remembered": lambda: check(demo),
            "demo, anew": lambda: check_anew(demo),
            "10x, remembered": lambda: check(big),
            "10x, anew": lambda: check_anew(big),
        }
        times: dict[str, list[float]] = {name: [] for name in calls}
        for _ in range(RUNS):
            for name, call in calls.items():
                if name.endswith("remembered"):
                    call()  # so that it is remembered, whatever ran before
                times[name].append(timed(call))
        times["demo, edit"], times["10x, edit"] = edits(demo), edits(big)
    return report({name: median(found) for name, found in times.items()})


def report(seconds: dict[str, float]) -> int:
    """Print medians with their ratio to the libraries' process."""
    base = seconds["libraries"]
    for name, value in seconds.items():
        print(f"{name:18s} {value * 1e3:8.0f} ms   {value / base:6.2f} x libraries")
    passed = (
        seconds["demo, remembered"] < REMEMBERED_RATIO * base
        and seconds["demo, anew"] < ANEW_S
        and seconds["10x, edit"] < EDIT_S
        and seconds["demo, edit"] < DEMO_EDIT_S
    )
    print("within the design's limits" if passed else "over a limit of the design")
    return 0 if passed else 1


if __name__ == "__main__":
    sys.exit(main())
