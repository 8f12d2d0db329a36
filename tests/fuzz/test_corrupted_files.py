"""Corrupted files through the program's entry function: two thousand here, more by `python -m tests.fuzz`."""

from __future__ import annotations

from random import Random

import pytest

from hardstand.description.read import read_texts
from tests.fuzz.aeroplanes import small_aeroplane
from tests.fuzz.corrupt import KINDS, corrupted
from tests.fuzz.run import aeroplane, demo, run_all, wrongs

COUNT = 2_002  # a whole number of rounds of the seven kinds
PARTS = 7
REACHING_AN_ENGINE = 0.3


@pytest.mark.parametrize("part", range(PARTS))
def test_no_corruption_brings_the_program_down(part: int) -> None:
    """No traceback, none over two seconds, a located problem or a valid assessment; a third assessed."""
    tally = run_all(COUNT // PARTS, part * COUNT // PARTS)
    assert not tally.faults, tally.table()
    assert sum(tally.engines.values()) / tally.count >= REACHING_AN_ENGINE, tally.table()
    shares = [sum(tally.statuses[kind, status] for status in (0, 1, 2)) for kind in KINDS]
    assert max(shares) - min(shares) <= 1


def test_what_is_corrupted_could_be_read_before() -> None:
    """Else a run would show nothing."""
    for number in range(60):
        read_texts(small_aeroplane(Random(number)))  # noqa: S311 to be had again
    for name in ("s0", "s1", "s2"):
        read_texts(demo(name))


def test_the_same_number_gives_the_same_corruption() -> None:
    """To the byte, and nearly every number another one."""
    made = [aeroplane(number) for number in range(140)]
    assert made == [aeroplane(number) for number in range(140)]
    assert len({tuple(one.files.values()) for one in made}) > 130


@pytest.mark.parametrize("kind", KINDS)
def test_a_corruption_changes_the_files(kind: str) -> None:
    """Mostly: some put in the place of a name another that happens to be the same."""
    texts = small_aeroplane(Random(1))  # noqa: S311 to be had again
    clean = {name: text.encode() for name, text in texts.items()}
    made = [corrupted(texts, kind, Random(number)).files for number in range(100)]  # noqa: S311
    assert sum(files != clean for files in made) >= 60


@pytest.mark.parametrize(
    "status, out, wrong",
    [
        (0, "", "no JSON"),
        (2, '{"error": {}}', "no problem is named"),
        (2, '{"problems": [{"file": "a", "line": null, "what": "x", "where": ""}]}', "no problem has a line"),
        (2, '{"problems": [{"file": "a", "line": 0, "what": "x", "where": ""}]}', "a line that does not exist"),
        (3, "{}", "exit status 3"),
        (0, '{"findings": [], "stages": {"fit": {"state": "fine"}}}', "fit stands at fine"),
        (1, '{"findings": [], "stages": {}}', "does not go with the findings"),
        (0, '{"stages": {}, "findings": [{"code": "fit", "text": "x", "severity": "note"}]}',
         "a finding not well formed"),
    ],
)  # fmt: skip
def test_what_would_be_wrong_is_seen(status: int, out: str, wrong: str) -> None:
    """The judge of the runs is no rubber stamp."""
    assert any(wrong in one for one in wrongs(status, out, ""))
    assert "a traceback" in list(wrongs(0, '{"findings": [], "stages": {}}', "Traceback (most recent"))
