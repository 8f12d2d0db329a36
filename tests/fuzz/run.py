"""Runs of the program over corrupted aeroplanes: what came of each, and the table of all."""

from __future__ import annotations

import io
import json
import os
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from random import Random
from typing import Any
from unittest.mock import patch

import hardstand
from hardstand.cli import run
from hardstand.remembered import program_image
from tests.fuzz.aeroplanes import small_aeroplane
from tests.fuzz.corrupt import KINDS, Corrupted, corrupted

LONGEST_S = 2.0
DEMO_EVERY = 80  # the demo takes some thirty times as long as a small aeroplane
SEVERITIES = {"no-go", "measure", "caution", "note"}
STATES = {"assessed", "partly", "not assessed"}


@dataclass
class Tally:
    """What came of all runs: counts by kind and exit status, and everything that must not be."""

    statuses: Counter[tuple[str, int]] = field(default_factory=Counter)
    engines: Counter[str] = field(default_factory=Counter)
    longest_s: float = 0.0
    longest: str = ""
    total_s: float = 0.0
    faults: list[str] = field(default_factory=list)

    @property
    def count(self) -> int:
        """How many files were run."""
        return sum(self.statuses.values())

    def table(self) -> str:
        """The table as it is printed."""
        lines = [
            f"{'kind':10} {'files':>8} {'share':>7} {'exit 0':>8} {'exit 1':>8} {'exit 2':>8} {'engine':>8}"
        ]
        for kind in KINDS:
            by = [self.statuses[kind, status] for status in (0, 1, 2)]
            lines.append(
                f"{kind:10} {sum(by):8d} {sum(by) / max(self.count, 1):7.2%} "
                f"{by[0]:8d} {by[1]:8d} {by[2]:8d} {self.engines[kind]:8d}"
            )
        reached = sum(self.engines.values())
        odd = self.count - sum(
            self.statuses[kind, status] for kind in KINDS for status in (0, 1, 2)
        )
        mean_ms = 1000.0 * self.total_s / max(self.count, 1)
        lines.append(
            f"all        {self.count:8d}; reached an engine {reached / max(self.count, 1):.2%}; "
            f"other exit statuses {odd}"
        )
        lines.append(
            f"longest {self.longest_s:.2f} s ({self.longest}); mean {mean_ms:.1f} ms; "
            f"faults {len(self.faults)}"
        )
        return "\n".join([*lines, *self.faults[:50]])


def aeroplane(number: int) -> Corrupted:
    """The corrupted aeroplane of a number: its kind goes round, all else comes from the number."""
    random = Random(number)  # noqa: S311 chance that can be had again is what is wanted
    # In blocks of all kinds, so that each kind meets the demo as often as every other.
    texts = demo(random.choice(("s0", "s1", "s2"))) if number // len(KINDS) % DEMO_EVERY == 0 else (
        small_aeroplane(random))  # fmt: skip
    return corrupted(texts, KINDS[number % len(KINDS)], random)


@cache
def demo(name: str) -> Mapping[str, str]:
    """The files of one of the demo's folders."""
    folder = Path(hardstand.__file__).parent / "data" / "demo" / name
    files = [*folder.glob("*.toml"), *folder.glob("parts/*.toml")]
    known = [one for one in files if one.name != "expected.toml"]
    return {one.relative_to(folder).as_posix(): one.read_text("utf-8") for one in known}


@contextmanager
def scratch() -> Iterator[Path]:
    """A folder for the files, in memory where the system has such a place."""
    memory = Path("/dev/shm")  # noqa: S108 only where it exists, and a name of our own within it
    with tempfile.TemporaryDirectory(dir=memory if os.access(memory, os.W_OK) else None) as name:
        yield Path(name)


def run_one(number: int, folder: Path, tally: Tally) -> None:
    """Lay out one corrupted aeroplane, check it, and judge what came of it."""
    made = aeroplane(number)
    for name in ("aeroplane.toml", "measurements.toml", "parts/own.toml"):
        path = folder / name
        path.parent.mkdir(exist_ok=True)
        if name in made.files:
            path.write_bytes(made.files[name])
        else:
            path.unlink(missing_ok=True)
    out, err = io.StringIO(), io.StringIO()
    start = time.process_time()  # of this process alone: others may be at work on the machine
    try:
        status = run(["check", str(folder), "--json", "--anew"], out, err)
    except BaseException as error:  # noqa: BLE001 whatever comes out is the fault that is looked for
        status, raised = -1, repr(error)
    else:
        raised = ""
    took = time.process_time() - start
    wrong = [raised] if raised else list(wrongs(status, out.getvalue(), err.getvalue()))
    if took > LONGEST_S:
        wrong.append(f"took {took:.2f} s")
    tally.faults += [f"{number} {made.kind}: {one} ({made.what[:200]})" for one in wrong]
    tally.statuses[made.kind, status] += 1
    tally.engines[made.kind] += status in (0, 1)
    tally.total_s += took
    if took > tally.longest_s:
        tally.longest_s, tally.longest = took, f"{number} {made.kind}"


def wrongs(status: int, out: str, err: str) -> Iterator[str]:
    """What is wrong with the answer to `check --json`."""
    if "Traceback" in out + err:
        yield "a traceback"
    try:
        form: dict[str, Any] = json.loads(out)
    except ValueError:
        yield f"status {status} and no JSON: {out[:80]!r} {err[:200]!r}"
        return
    if status == 2:
        yield from _wrong_problems(form)
    elif status in (0, 1):
        yield from _wrong_assessment(form, status)
    else:
        yield f"exit status {status}: {out[:200]}"


def _wrong_problems(form: Mapping[str, Any]) -> Iterator[str]:
    problems = form.get("problems") or []
    if not problems:
        yield f"no problem is named: {json.dumps(form)[:300]}"
    for one in problems:
        if not one["file"] or not one["what"]:
            yield f"a problem without file or words: {one}"
        if one["line"] is not None and one["line"] < 1:
            yield f"a line that does not exist: {one}"
    if not any(one["line"] for one in problems):
        yield f"no problem has a line: {problems[:2]}"
    said = Counter((one["file"], one["line"], one["where"], one["what"]) for one in problems)
    yield from (f"said twice: {one}" for one, count in said.items() if count > 1)


def _wrong_assessment(form: Mapping[str, Any], status: int) -> Iterator[str]:
    findings = form["findings"]
    for one in findings:
        stage, _, slug = one["code"].partition(".")
        if not (stage and slug and one["text"] and one["severity"] in SEVERITIES):
            yield f"a finding not well formed: {one}"
        for number in (one.get("figure"), one.get("limit")):
            if number is not None and not {"value", "unit", "u", "kind"} <= number.keys():
                yield f"a figure or limit without its fields: {number}"
        if "nan" in one["text"].lower().split() or "inf" in one["text"].lower().split():
            yield f"no number in a sentence: {one['text']}"
    if status != int(any(one["severity"] == "no-go" for one in findings)):
        yield f"exit status {status} does not go with the findings"
    for name, one in form["stages"].items():
        if one["state"] not in STATES:
            yield f"{name} stands at {one['state']}"


def run_all(count: int, first: int = 0) -> Tally:
    """Run the aeroplanes of the numbers from `first`."""
    tally = Tally()
    # What the program consists of does not change meanwhile: it need not be looked at each time.
    with scratch() as folder, patch("hardstand.remembered.program_image", cache(program_image)):
        for number in range(first, first + count):
            run_one(number, folder, tally)
            if count > 3000 and (number + 1 - first) % 2000 == 0:
                print(f"… {number + 1 - first}", file=sys.stderr, flush=True)  # noqa: T201
    return tally
