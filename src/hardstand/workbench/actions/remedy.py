"""The remedy of a finding, made by one click: only the one that the page showed."""

from __future__ import annotations

from collections.abc import Mapping

from hardstand.changes import change_from_json
from hardstand.workbench.bench import Bench
from hardstand.workbench.outcome import Outcome, refused


def make_remedy(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """Make the changes of a remedy, found by its finding's code and ids and by its own sentence."""
    bench.refresh()
    code, about, text = (values.get(one, "") for one in ("code", "about", "text"))
    found = next((one for one in bench.held().form["findings"]
                  if one["code"] == code and " ".join(one["about"]) == about), None)  # fmt: skip
    remedy = found["remedy"] if found else None
    if not remedy or not remedy["changes"]:
        return refused(f"{code} is no longer found here, or has no change that could be made for you.")
    if remedy["text"] != text:
        return refused("the way out is another one now.", remedy["text"])
    changes = [change_from_json(one) for one in remedy["changes"]]
    return bench.change(changes, f"remedy of {code} ({', '.join(about.split())})")
