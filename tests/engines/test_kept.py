"""What is kept from run to run saves work and changes nothing."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from random import Random
from typing import Any

import numpy as np
import pytest

import hardstand
from hardstand.asbuilt import build
from hardstand.assessment import Assessment, Memory, assess
from hardstand.description.read import read_texts
from hardstand.description.storage import Folder
from hardstand.engines.kept import Kept
from hardstand.stages import stages

DEMO = Path(hardstand.__file__).parent / "data" / "demo" / "s1"
PLACE = re.compile(r"(?m)^at_mm = \[(-?\d+(?:\.\d+)?), ([^\]]*)\]")
LIMITS = '\n[[limit]]\nid = "fit.box-gap"\nlow = {}\nreason = "tried"\n'


def one_moved(text: str, random: Random) -> str:
    """The same with one thing somewhere else along x, by up to 30 mm."""
    at = random.choice(list(PLACE.finditer(text)))
    x = round(float(at[1]) + random.uniform(-30.0, 30.0), 1)
    return f"{text[: at.start()]}at_mm = [{x}, {at[2]}]{text[at.end() :]}"


def assessed(texts: Mapping[str, str], memory: Memory | None) -> Assessment:
    """The assessment of an aeroplane."""
    return assess(build(read_texts(texts).description), stages(), memory)


def same(one: Any, other: Any) -> bool:
    """Whether two results of a node are alike to the bit, figures and checks."""
    figures, others = one.figures, other.figures
    return (
        figures.addresses == others.addresses
        and figures.inputs == others.inputs
        and np.array_equal(figures.values, others.values)
        and np.array_equal(figures.sensitivity, others.sensitivity)
        and getattr(one, "checks", ()) == getattr(other, "checks", ())
    )


def test_after_edits_the_answer_is_that_of_a_fresh_start() -> None:
    """Things moved one after another and moved back, limits set: every result alike to the bit."""
    random, memory = Random(3), Memory()  # noqa: S311 to be had again
    texts = Folder(DEMO).texts()
    text = texts["aeroplane.toml"]
    tried = [text, text + LIMITS.format(6)]
    for _ in range(5):
        tried.append(one_moved(tried[-1], random))
    for edited in (*tried, text):
        warm = assessed({**texts, "aeroplane.toml": edited}, memory)
        cold = assessed({**texts, "aeroplane.toml": edited}, None)
        assert warm.findings == cold.findings
        for name, result in cold.results.items():
            if hasattr(result, "figures") and result.figures is not None:
                assert same(warm.results[name], result), name


def test_rows_of_other_content_are_worked_out_again() -> None:
    """A row is known by its content and not by its place or name; the last run alone counts."""
    kept, asked = Kept(), list[list[int]]()

    def made(places: Any) -> Any:
        asked.append(places.tolist())
        return np.array([[float(place)] for place in places])

    kept.rows("a", [b"1", b"2"], made)
    kept.rows("b", [b"1"], made)
    kept.rows("a", [b"2", b"3", b"2"], made)
    kept.rows("a", [b"1", b"3"], made)
    assert asked == [[0, 1], [0], [1], [0]]


@pytest.mark.parametrize("count", [0, 1])
def test_nothing_asked_is_nothing_made(count: int) -> None:
    """No rows, before or after some."""
    kept = Kept()
    for _ in range(count):
        kept.rows("a", ["x"], lambda places: np.ones((len(places), 2)))
    assert len(kept.rows("a", [], lambda places: np.ones((len(places), 2)))) == 0
