"""The demo aeroplane seven times over, nose to tail: some 250 items and 600 leads, for timing.

Not an aeroplane that could be built: it has one wing and seven fuselages' worth of equipment, so
that every engine has seven times the work at least, and the leads ten times.
"""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import hardstand

COPIES = 7
PITCH_MM = 2400.0
COPIED = ("bay", "section", "tray", "hole", "keep_out", "hatch", "item", "antenna", "joint")
REFERENCES = ("bay", "tray", "on", "item", "through", "supports")
SHIFTED = {
    "outline_mm": "plan", "at_mm": "point", "tip_mm": "point", "from_mm": "point", "to_mm": "point",
    "x_mm": "number", "move_x_mm": "numbers", "profile_mm": "profile",
}  # fmt: skip
LEADS = 600


def demo_folder(moment: str = "s1") -> Path:
    """The demo's folder inside the package."""
    return Path(hardstand.__file__).parent / "data" / "demo" / moment


def _moved(field: str, value: Any, by_mm: float, row: dict[str, Any]) -> Any:
    how = SHIFTED.get(field)
    if how is None or (field == "outline_mm" and "x_mm" in row):  # a section's outline: y and z
        return value
    if how == "number":
        return value + by_mm
    if how == "numbers":
        return [one + by_mm for one in value]
    if how in ("plan", "profile"):
        return [[point[0] + by_mm, point[1]] for point in value]
    return [value[0] + by_mm, *value[1:]]


def _named(value: Any, suffix: str) -> Any:
    return [one + suffix for one in value] if isinstance(value, list) else value + suffix


def _copy(row: dict[str, Any], copy: int) -> dict[str, Any]:
    suffix = f"-{copy}" if copy else ""
    made = {}
    for field, value in row.items():
        if field == "id" or field in REFERENCES:
            made[field] = _named(value, suffix)
        else:
            made[field] = _moved(field, value, copy * PITCH_MM, row)
    return made


def _lead(row: dict[str, Any], number: int, copy: int) -> dict[str, Any]:
    made = dict(row, id=f"L{number}")
    for end in ("from", "to"):
        item, dot, port = row[end].partition(".")
        made[end] = f"{item}-{copy}.{port}" if dot and copy else row[end]
    # its fellows in one cable, or the lead it branches off, are leads of other numbers here
    return {field: value for field, value in made.items() if field not in ("cable", "branch_of")}


def _written(value: Any) -> str:
    if isinstance(value, dict):
        inner = ", ".join(f"{json.dumps(key)} = {_written(one)}" for key, one in value.items())
        return f"{{ {inner} }}"
    if isinstance(value, list):
        return f"[{', '.join(_written(one) for one in value)}]"
    return json.dumps(value, ensure_ascii=False)


def _rows(table: str, rows: list[dict[str, Any]]) -> str:
    return "".join(
        f"\n[[{table}]]\n" + "".join(f"{key} = {_written(value)}\n" for key, value in row.items())
        for row in rows
    )


def ten_times() -> dict[str, str]:
    """The files of the big aeroplane by name."""
    folder = demo_folder()
    data = tomllib.loads((folder / "aeroplane.toml").read_text(encoding="utf-8"))
    text = "format = 1\n"
    for table, value in data.items():
        if isinstance(value, dict):
            text += f"\n[{table}]\n" + "".join(
                f"{key} = {_written(one)}\n" for key, one in value.items()
            )
        elif table in COPIED:
            text += _rows(table, [_copy(row, copy) for copy in range(COPIES) for row in value])
        elif table == "lead":
            ends = [row for row in value if row["to"] != "unknown"]
            made = [_lead(ends[n % len(ends)], n, (n // len(ends)) % COPIES) for n in range(LEADS)]
            text += _rows(table, made)
        elif table not in ("format", "option"):
            text += _rows(table, value)
    names = [*sorted(folder.glob("parts/*.toml")), folder / "measurements.toml"]
    others = {str(one.relative_to(folder)): one.read_text(encoding="utf-8") for one in names}
    return {"aeroplane.toml": text} | others


def lay_out(folder: Path) -> None:
    """Write the big aeroplane into a folder."""
    for name, text in ten_times().items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
