"""The demo aeroplane assessed once, and its sheets, for all tests of drawings."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

import hardstand
from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import Assessment, assess
from hardstand.description.read import read_folder
from hardstand.stages import stages
from hardstand.views.drawing import DRAWINGS, Wanted
from hardstand.views.drawing.svg import Sheet

Demo = tuple[AsBuilt, Assessment]


@cache
def assessed_demo(moment: str) -> Demo:
    """The demo aeroplane at one of its moments, read and assessed."""
    folder = Path(hardstand.__file__).parent / "data" / "demo" / moment
    asbuilt = build(read_folder(folder).description)
    return asbuilt, assess(asbuilt, stages())


@cache
def sheet_of(moment: str, name: str, **options: object) -> Sheet:
    """A sheet of the demo."""
    return DRAWINGS[name].make(*assessed_demo(moment), Wanted(**options))  # type: ignore[arg-type]


@pytest.fixture(scope="session")
def demo() -> Demo:
    """The demo as built."""
    return assessed_demo("s1")


@pytest.fixture(scope="session")
def sheet() -> Callable[..., Sheet]:
    """Makes a sheet of the demo: moment, name, options."""
    return sheet_of
