from __future__ import annotations

import datetime as dt
import json
import tomllib
from pathlib import Path
from typing import Any

import pytest

from hardstand.cli.quantities import day, quantity
from hardstand.cli.refusal import Refusal
from tests.asbuilt.test_weighing_in import TEXTS
from tests.small_aeroplane import laid_out, ran


def measured(folder: Path) -> dict[str, Any]:
    """What stands in measurements.toml."""
    return tomllib.loads((folder / "measurements.toml").read_text("utf-8"))


def test_a_measurement_is_written_and_judged(tmp_path: Path) -> None:
    """The row is shown and written as one revision, and the verdict is printed."""
    folder = laid_out(tmp_path / "jet")
    words = ("--tol", "2", "--with", "kitchen scale", "--date", "2026-4-18")
    status, out, _ = ran("measure", "mass.wing.mass_g", "812", folder, *words)
    assert status == 0
    assert "declared = 800" in out
    assert "Written as r2" in out
    assert measured(folder)["measurement"] == [
        {
            "id": "wing-mass",
            "address": "mass.wing.mass_g",
            "value": 812,
            "tol": 2,
            "instrument": "kitchen scale",
            "date": "2026-04-18",
            "declared": 800,
        }
    ]


def test_a_measurement_moves_the_verdict(tmp_path: Path) -> None:
    """A measured place of the mass centre that puts the CG outside its range is a no-go at once."""
    folder = laid_out(tmp_path / "jet")
    status, out, _ = ran("measure", "mass.shell.at_mm", "[900, 0, 0]", folder)
    assert status == 0
    assert "balance.cg-range" in out.partition("New")[2]


def test_with_an_option_its_value_is_the_declared_one(tmp_path: Path) -> None:
    """What is measured with an option laid over is held against what the option says."""
    folder = laid_out(tmp_path / "jet")
    words = ("measure", "item.rx.at_mm", "[301, 0]", folder, "--option", "aft")
    form = json.loads(ran(*words, "--json")[1])
    assert form["changes"][0]["row"]["declared"] == [300, 0]


@pytest.mark.parametrize(
    "words, says",
    [
        (("mass.wng.mass_g", "1"), "Did you mean wing?"),
        (("mass.wing.mass_g", "much"), "not a mass"),
        (("mass.wing.mass_g", "--", "-3"), "Declared there is 800."),
        (("mass.wing.mass_g", "1", "--date", "18.4.2026"), "2026-04-18"),
    ],
)
def test_what_is_refused(words: tuple[str, ...], says: str, tmp_path: Path) -> None:
    """A refusal says what to do, and nothing is written."""
    folder = laid_out(tmp_path / "jet")
    options = [one for one in words[2:] if words[2] == "--date"]
    plain = [one for one in words if one not in options]
    status, _, err = ran("measure", *options, *plain, folder)
    assert status == 3
    assert says in " ".join(err.split())
    assert not (folder / "measurements.toml").exists()


@pytest.mark.parametrize("order", [(0, 1, 2, 3), (1, 2, 3, 0), (2, 0, 1, 3)])
def test_readings_and_folder_in_any_order(order: tuple[int, ...], tmp_path: Path) -> None:
    """The folder may stand before, between or after the readings, which may have units."""
    folder = laid_out(tmp_path / "jet", TEXTS["aeroplane.toml"])
    words = (str(folder), "nose=1 lb", "left=700", "700,0,-90=710")
    status, out, _ = ran(
        "weigh", "--state", "empty", "--resolution", "5", *(words[at] for at in order)
    )
    assert status == 0
    assert "Written as r2" in out
    found = sorted(one["reading_g"] for one in measured(folder)["reading"])
    assert found == [pytest.approx(453.59237, abs=1e-5), 700, 710]
    assert {one["resolution_g"] for one in measured(folder)["reading"]} == {5}


def test_a_stand_is_entered(tmp_path: Path) -> None:
    """A two-point stand is one row, with the weight that levels it."""
    folder = laid_out(tmp_path / "jet")
    words = ("--state", "empty", "--stand", "590", "--tips", "level", "--date", "2026-04-18")
    assert ran("weigh", folder, *words)[0] == 0
    assert measured(folder) == {
        "weighing": [
            {
                "id": "weigh-in-1",
                "state": "empty",
                "method": "stand",
                "date": "2026-04-18",
                "tips": "level",
                "stand_x_mm": 590,
            }
        ]
    }


@pytest.mark.parametrize(
    "words, says",
    [
        (("a", "b"), "Write LEG=READING"),
        (("nose=much", "left=3"), "The reading of nose"),
        (("nose=[1, 2]", "left=3"), "takes one number"),
        (("1,2=3", "left=3"), "Give x, y and z"),
        (("nose=1", "left=3", "--pitch", "3 mm"), "--pitch"),
        (("nose=1", "left=3"), "In which state"),
    ],
)
def test_what_is_no_weigh_in(words: tuple[str, ...], says: str, tmp_path: Path) -> None:
    """Each slip in what was typed is answered by itself."""
    folder = laid_out(tmp_path / "jet", TEXTS["aeroplane.toml"])
    status, _, err = ran("weigh", folder, *words)
    assert status == 3
    assert says in " ".join(err.split())


def test_a_day() -> None:
    """A day is written year first; without one it is today."""
    assert day("2026-12-1") == "2026-12-01"
    assert dt.date.fromisoformat(day(None)) >= dt.date(2026, 1, 1)
    with pytest.raises(Refusal, match="is no day"):
        day("yesterday")


def test_a_quantity_is_refused_by_its_name() -> None:
    """What is no number names the option it was given for."""
    with pytest.raises(Refusal, match="--stand") as refused:
        quantity("true", "mm", "--stand")
    assert "value_" not in refused.value.hint
