"""A weigh-in from its form: what each scale shows, the state, how level it stood."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from hardstand.asbuilt.measuring import MeasureError, in_unit
from hardstand.asbuilt.weighing_in import weigh_in_rows
from hardstand.workbench.bench import Bench
from hardstand.workbench.outcome import Outcome

_FIELDS = {"pitch_deg": "its attitude", "pitch_tol_deg": "how well the attitude is known"}
_OF_READINGS = {"resolution_g": "the step of the scales", "reading_tol_g": "how well a scale is known"}
READING = "reading."  # begins the name of a leg's field in the form


def weigh(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """Enter it into measurements.toml."""
    bench.refresh()
    held = bench.held()
    every = {field: _typed(values, field, what) for field, what in _OF_READINGS.items()}
    readings = []
    for name in values:
        if name.startswith(READING) and values[name].strip():
            leg = name.removeprefix(READING)
            shown = _typed(values, name, f"the reading of {leg}", "reading_g")
            readings.append({"under": leg, "reading_g": shown, **every})
    weighing = {"state": values.get("state") or None, "by": values.get("by", "").strip()[:80] or None,
                "date": datetime.now().astimezone().date().isoformat()}  # fmt: skip
    weighing |= {field: _typed(values, field, what) for field, what in _FIELDS.items()}
    rows = weigh_in_rows(held.workspace.read, weighing, readings)
    return bench.change(rows, f"weighed in state {rows[0].row['state']}")


def _typed(values: Mapping[str, str], name: str, what: str, field: str = "") -> Any:
    """A quantity of the form in the unit of its field's name, None where nothing was typed."""
    text = values.get(name, "").strip()
    if not text:
        return None
    try:
        number = float(text.replace(",", "."))
    except ValueError:
        return _with_unit(text, field or name, what)
    return int(number) if number.is_integer() else number


def _with_unit(text: str, field: str, what: str) -> Any:
    try:
        return in_unit(text, field)
    except MeasureError as error:
        raise MeasureError(f"{text} cannot be {what}: {error}", error.hint) from None
