"""The demo aeroplane seven times over, nose to tail: some 250 items and 600 leads, for timing.

Not an aeroplane that could be built: it has one wing and seven fuselages' worth of equipment, so
that every engine has seven times the work at least. Each copy's wiring works: its own packs feed its
own rails, and its channels come out at its own units. Most leads are parted by a plug on their way,
as they are where a fuselage comes apart, so that there are more than ten times the demo's.
"""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import hardstand

COPIES = 7
PITCH_MM = 2400.0
COPIED = (
    "bay", "section", "tray", "hole", "keep_out", "hatch", "item", "antenna", "joint", "lead", "load",
    "channel", "accept",
)  # fmt: skip
REFERENCES = ("bay", "tray", "on", "item", "through", "supports", "drives", "about", "branch_of", "cable")
ENDS = ("from", "to", "at")
SHIFTED = {
    "outline_mm": "plan", "at_mm": "point", "tip_mm": "point", "from_mm": "point", "to_mm": "point",
    "x_mm": "number", "move_x_mm": "numbers", "profile_mm": "profile",
}  # fmt: skip
# Leads with these plugs are parted once: the pins of the plug pair that parts them.
PARTED = {
    "3-pin 2.54 mm": ["signal", "plus", "minus"], "2-pole, small": ["plus", "minus"],
    "2-pole, 60 A class": ["plus", "minus"],
}  # fmt: skip
BEHIND_MM = 150.0


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


def _end(value: Any, suffix: str) -> Any:
    """An end of a copy: the item, the joint or the name of its own with the copy's suffix."""
    if isinstance(value, list):
        return [_end(one, suffix) for one in value]
    name, dot, port = value.partition(".")
    return f"{name}{suffix}{dot}{port}"


def _copy(row: dict[str, Any], copy: int) -> dict[str, Any]:
    suffix = f"-{copy}" if copy else ""
    made = {}
    for field, value in row.items():
        if field == "id" or field in REFERENCES:
            made[field] = _named(value, suffix)
        elif field in ENDS:
            made[field] = _end(value, suffix)
        elif field != "number" or not copy:  # a transmitter has no more numbers of channels
            made[field] = _moved(field, value, copy * PITCH_MM, row)
    return made


def _parted(data: dict[str, Any]) -> None:
    """Put a plug pair into every lead that can have one."""
    tops = {one["id"]: one["top_z_mm"] for one in data["tray"]}
    places = {one["id"]: [*one["at_mm"][:2], one["at_mm"][2] if len(one["at_mm"]) > 2 else
                          tops[one["on"]] + 15.0] for one in [*data["item"], *data["joint"]]
              if "at_mm" in one}  # fmt: skip
    leads = []
    for row in data["lead"]:
        pins = PARTED.get(row.get("connector", ""))
        shares = {"cable", "branch_of", "direct"} & row.keys() or any(
            row["id"] in (one.get("cable"), one.get("branch_of")) for one in data["lead"])
        if pins is None or shares or row["to"] == "unknown":
            leads.append(row)
            continue
        here = places[row["from"].partition(".")[0]]
        far = places.get(row["to"].partition(".")[0]) or [here[0] + 2.0 * BEHIND_MM, *here[1:]]
        joint = {"id": f"plug-{row['id']}", "connector": row["connector"], "poles": len(pins),
                 "way_pins": pins, "at_mm": [0.5 * (a + b) for a, b in zip(here, far, strict=True)],
                 "locked": True}  # fmt: skip
        data["joint"].append(joint)
        half = {"length_mm": 0.5 * row["length_mm"]} if "length_mm" in row else {}
        second = {"from": joint["id"], "id": f"{row['id']}-far"}
        leads.append({**_without(row, "to_"), "to": joint["id"], **half})
        leads.append({**_without(row, "from_", "fuse_a"), **second, **half})
    data["lead"] = leads


def _without(row: dict[str, Any], *starts: str) -> dict[str, Any]:
    return {field: value for field, value in row.items() if not field.startswith(starts)}


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
    _parted(data)
    text = "format = 1\n"
    for table, value in data.items():
        if isinstance(value, dict):
            text += f"\n[{table}]\n" + "".join(
                f"{key} = {_written(one)}\n" for key, one in value.items()
            )
        elif table in COPIED:
            text += _rows(table, [_copy(row, copy) for copy in range(COPIES) for row in value])
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
