"""What is asked of each address by someone who is let in: forms and queries with the values in force."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from typing import Any

from hardstand.description.model import ROWS, SINGLES
from hardstand.description.safe_files import sha256_of
from hardstand.stages import rules
from hardstand.workbench.actions import ACTIONS
from hardstand.workbench.bench import Bench
from hardstand.workbench.pages import PAGES
from tests.workbench.robust.chance import Chance

Form = dict[str, str]

POSTS = (*ACTIONS, "/try", "/preferences", "/enter")
GETS = (*PAGES, "/work", "/events", "/enter", "/static", "/look", "/nowhere")
ROUTES = (*(f"GET {one}" for one in GETS), *(f"POST {one}" for one in POSTS))
FILES = ("/static/pages.css", "/static/enter.js", "/static/sheet.css", "/look/tokens.css")

_CHANGED: Mapping[str, Callable[[Chance], Any]] = {
    "mass_g": lambda chance: chance.pick((chance.whole(1, 900), chance.whole(10, 9000) / 10)),
    "mass_tol_g": lambda chance: chance.pick((None, chance.whole(1, 9))),
    "name": lambda chance: chance.pick((None, chance.note, "a 'b' \"c\" # [d] = é")),
    "note": lambda chance: chance.note or None, "turn_deg": lambda chance: chance.pick((0, 90, 180, 270)),
    "at_mm": lambda chance: (chance.whole(120, 700), chance.whole(-50, 50), chance.whole(-20, 20)),
    "top_z_mm": lambda chance: chance.whole(-20, 0),
}


def changeable(bench: Bench) -> list[str]:
    """Addresses whose values a builder changes: masses, places, names."""
    raw = bench.held().workspace.base
    found = [f"{table}.{row['id']}.{field}" for table in ("mass", "item", "tray")
             for row in raw.rows.get(table, [])[:8] for field in _CHANGED
             if field in row or field in ("name", "note", "mass_tol_g")]  # fmt: skip
    return [*found, "aeroplane.name"]


def new_value(chance: Chance, address: str, old: Any) -> Any:
    """Another value for an address, of the shape that stands there."""
    value = _CHANGED[address.rpartition(".")[2]](chance)
    return list(value[: len(old)]) if isinstance(value, tuple) and isinstance(old, list) else value


def _change(bench: Bench, chance: Chance) -> Form:
    address = chance.pick(changeable(bench))
    old = bench.held().workspace.value_at(address)
    return {"address": address, "old": json.dumps(old), "new": json.dumps(new_value(chance, address, old)),
            "item": "rx", "back": chance.pick(["/", "/trays", "/description?table=item"])}  # fmt: skip


def _field(bench: Bench, chance: Chance) -> Form:
    form = _change(bench, chance)
    value = json.loads(form.pop("new"))
    typed = "" if value is None else value if isinstance(value, str) else json.dumps(value)
    return {**form, "typed": typed}


def _remedy(bench: Bench, chance: Chance) -> Form:
    every = [one for one in bench.held().form["findings"] if one["remedy"]]
    if not every:
        return {"code": "fit.box-gap", "about": "rx", "text": "Move it."}
    one = chance.pick(every)
    return {"code": one["code"], "about": " ".join(one["about"]), "text": one["remedy"]["text"]}


def _text(bench: Bench, chance: Chance) -> Form:
    texts = bench.now_texts()
    name = chance.pick(sorted(texts))
    more = chance.line
    return {"file": name, "sha256": sha256_of(texts[name].encode()), "text": f"{texts[name][:60_000]}# {more}\r\n"}


def _weighing(bench: Bench, chance: Chance) -> Form:
    held = bench.held()
    legs = {f"reading.{one.id}": str(chance.whole(100, 900)) for one in held.asbuilt.legs}
    state = chance.pick([one.id for one in held.asbuilt.states])
    return {**legs, "state": state, "by": "N", "pitch_deg": "0", "resolution_g": "1 g", "reading_tol_g": "2"}


def _seeking(bench: Bench, chance: Chance) -> Form:
    ticks = {f"{kind}{one}": "on" for kind, one in chance.pick(
        ((("item.", "rx"), ("tray.", "front")), (("item.", "rx"),), ()))}  # fmt: skip
    return {**ticks, "alternatives": chance.pick("123"), "work": "1"}


def _taking(bench: Bench, chance: Chance) -> Form:
    return {"search": str(bench.seeking.now.number), "layout": chance.pick("123")}


_FORMS: Mapping[str, Callable[[Bench, Chance], Form]] = {
    "/change": _change, "/try": _change, "/field": _field, "/remedy": _remedy, "/text": _text,
    "/text-as-typed": _text, "/weigh-in": _weighing, "/look-for-layouts": _seeking, "/take-layout": _taking,
    "/compare-options": lambda _, chance: {chance.pick(["A.aft", "B.aft", "D.aft"]): "on"},
    "/preferences": lambda _, chance: {"units": chance.pick(["metric", "imperial"]),
                                     "paper": chance.pick(["system", "light", "dark"])},
}  # fmt: skip


def form_for(path: str, bench: Bench, chance: Chance) -> Form:
    """A form that a page shown now would post."""
    make = _FORMS.get(path)
    return make(bench, chance) if make else {}


def query_for(path: str, bench: Bench, chance: Chance) -> Form:
    """A query that a link of a page shown now has."""
    held = bench.held()
    table = chance.pick((*ROWS, *SINGLES))
    ids = [str(one.get("id", "")) for one in held.workspace.read.raw.rows.get(table, [])]
    every: dict[str, dict[str, list[str]]] = {
        "/description": {"table": [table], "row": ids},
        "/text": {"file": sorted(bench.now_texts()), "line": ["1", "12"]},
        "/stage": {"name": list(held.form["stages"])}, "/rule": {"code": sorted(rules())},
        "/trace": {"of": sorted(held.assessment.addresses())}, "/work": {"of": ["options", "layouts"]},
        "/trays": {"tray": [one["id"] for one in held.workspace.base.rows.get("tray", [])]},
    }  # fmt: skip
    found = {name: chance.pick(known) for name, known in every.get(path, {}).items() if known}
    if chance.whole(0, 3) == 0:
        found["leave"] = chance.pick(["drawing", "drawing,notes", "said"])
    return found


