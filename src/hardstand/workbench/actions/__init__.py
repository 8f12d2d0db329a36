"""What pages can ask to be done. Each action takes the fields of a form and answers with an outcome.

A stage joins with a line here for each thing that its page can do.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from hardstand.workbench.actions.back import redo_step, undo_step
from hardstand.workbench.actions.changing import change
from hardstand.workbench.actions.comparing import compare_ticked, stop_comparing
from hardstand.workbench.actions.field import put_field
from hardstand.workbench.actions.refusing import answered
from hardstand.workbench.actions.remedy import make_remedy
from hardstand.workbench.actions.seeking import look, stop_looking, take_layout
from hardstand.workbench.actions.text import check_text, put_text
from hardstand.workbench.actions.weighing import weigh
from hardstand.workbench.bench import Bench
from hardstand.workbench.outcome import Outcome

Action = Callable[[Bench, Mapping[str, str]], Outcome]
ACTIONS: Mapping[str, Action] = {
    path: answered(act)
    for path, act in {
        "/change": change,
        "/field": put_field,
        "/remedy": make_remedy,
        "/undo": undo_step,
        "/redo": redo_step,
        "/text": put_text,
        "/text-as-typed": check_text,
        "/weigh-in": weigh,
        "/look-for-layouts": look,
        "/stop-looking": stop_looking,
        "/take-layout": take_layout,
        "/compare-options": compare_ticked,
        "/stop-comparing": stop_comparing,
    }.items()
}
