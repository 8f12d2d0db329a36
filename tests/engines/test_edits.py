"""A chain of edits in one process, with all that is kept, gives what a fresh start gives."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any
from unittest.mock import patch

import numpy as np
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import hardstand
from hardstand.asbuilt import build
from hardstand.assessment import Assessment, Memory, assess
from hardstand.description import tables, validated
from hardstand.description.problems import UnreadableError
from hardstand.description.read import read_texts
from hardstand.description.same import Made
from hardstand.description.storage import Folder
from hardstand.stages import stages

DEMO = Folder(Path(hardstand.__file__).parent / "data" / "demo" / "s1").texts()
MAIN = "aeroplane.toml"
NUMBER = re.compile(r"(?m)^([a-z_]+) = (-?\d+(?:\.\d+)?)$")
PLACE = re.compile(r"(?m)^at_mm = \[(-?\d+(?:\.\d+)?), ([^\]]*)\]")
ITEM = re.compile(r"(?m)^\[\[(?:item|hole|lead|keep_out|mass|antenna)\]\]\n(?:(?!\[).*\n)*")


def assessed(texts: Mapping[str, str], memory: Memory | None, options: tuple[str, ...]) -> Assessment | None:
    """The assessment of an aeroplane, None where it cannot be read."""
    try:
        description = read_texts(texts, options).description
    except UnreadableError:
        return None
    return assess(build(description), stages(), memory)


def afresh(texts: Mapping[str, str], options: tuple[str, ...]) -> Assessment | None:
    """The same with nothing kept anywhere."""
    def made(_: object, _things: object, _also: object, make: Any) -> Any:
        return make()

    with (
        patch.object(tables, "_image", tables._image.__wrapped__),
        patch.object(validated, "_kept", validated._kept.__wrapped__),
        patch.object(Made, "of", made),
    ):
        return assessed(texts, None, options)


def image(value: Any) -> Any:
    """A value as plain nested tuples with every number in full, to compare two of them to the bit."""
    if isinstance(value, np.ndarray):
        return value.shape, value.dtype.str, value.tobytes()
    if is_dataclass(value):
        return type(value).__name__, tuple(image(getattr(value, one.name)) for one in fields(value))
    if isinstance(value, Mapping):
        return tuple((image(key), image(one)) for key, one in value.items())
    if isinstance(value, list | tuple):
        return tuple(image(one) for one in value)
    if isinstance(value, frozenset | set):
        return tuple(sorted(map(repr, value)))
    return repr(value)


@st.composite
def edited(draw: Any, text: str) -> str:
    """A text with one place moved, one number changed, one row taken out, or one lifted to the front."""
    how = draw(st.sampled_from(["move", "move", "number", "out", "first", "limit"]))
    if how == "limit":
        return f'{text}\n[[limit]]\nid = "fit.box-gap"\nlow = {draw(st.integers(1, 9))}\nreason = "tried"\n'
    pattern = {"move": PLACE, "number": NUMBER}.get(how, ITEM)
    at: re.Match[str] = draw(st.sampled_from(list(pattern.finditer(text))))
    before, after = text[: at.start()], text[at.end() :]
    if how == "move":
        x = round(float(at[1]) + draw(st.integers(-300, 300)) / 10.0, 1)
        return f"{before}at_mm = [{x}, {at[2]}]{after}"
    if how == "number":
        return f"{before}{at[1]} = {round(float(at[2]) * draw(st.sampled_from([0.9, 1.1])), 3)}{after}"
    rest = before + after
    if how == "out":
        return rest
    first = ITEM.search(rest)
    start = first.start() if first else len(rest)
    return rest[:start] + at[0] + rest[start:]


@settings(max_examples=4, suppress_health_check=list(HealthCheck))
@given(st.data())
def test_any_chain_of_edits_gives_what_a_fresh_start_gives(data: st.DataObject) -> None:
    """Every result of every node and every finding alike to the bit; options laid and taken off."""
    memory, text = Memory(), DEMO[MAIN]
    for _ in range(data.draw(st.integers(2, 5))):
        tried = data.draw(edited(text))
        options = data.draw(st.sampled_from([(), (), ("two-hubs",)]))
        warm = assessed({**DEMO, MAIN: tried}, memory, options)
        cold = afresh({**DEMO, MAIN: tried}, options)
        assert (warm is None) == (cold is None)
        if warm is None or cold is None:
            continue
        text = tried
        assert warm.findings == cold.findings
        for name, result in cold.results.items():
            assert image(warm.results[name]) == image(result), name
