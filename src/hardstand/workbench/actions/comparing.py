"""Options compared: which ones in which column, and the comparison begun or stopped."""

from __future__ import annotations

from collections.abc import Mapping

from hardstand.workbench.bench import Bench
from hardstand.workbench.options import COLUMNS, option_rows
from hardstand.workbench.outcome import Outcome, begun, refused


def compare_ticked(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """Begin to assess the description with the options ticked for each column."""
    bench.refresh()
    held = bench.held()
    known = [one.id for one in option_rows(held.workspace)]
    columns = [tuple(one for one in known if f"{letter}.{one}" in values) for letter in COLUMNS]
    chosen = list(dict.fromkeys(one for one in columns if one))
    if not chosen:
        return refused("no option is ticked.", "Tick at least one, in any column.", status=422)
    bench.comparing.start(held, {"columns": chosen})
    return begun("The options are being compared. It goes on when this page is closed.")


def stop_comparing(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """End the comparison; nothing of it is kept."""
    del values
    bench.comparing.stop()
    return begun("The comparison is being ended.")
