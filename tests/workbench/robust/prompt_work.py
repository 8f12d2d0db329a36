"""Long work that is done at once, in this process, from an answer worked out before."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.workbench.bench import Bench, Held
from hardstand.workbench.long import AtWorkError, LongWork, Standing
from hardstand.workbench.long.tasks import compare_options, seek_layouts


class PromptWork(LongWork):
    """Stands as at work from its start until it is stopped, and has its answer then."""

    def __init__(self, answer: Mapping[str, Any]) -> None:
        super().__init__(lambda *_: {})
        self._answer = answer

    def start(self, about: Held, asked: Mapping[str, Any]) -> Standing:
        """Begin."""
        with self._lock:
            if self._now.phase == "working":
                raise AtWorkError
            self._now = Standing(self._now.number + 1, "working", about, dict(asked))
        return self.now

    def stop(self) -> None:
        """Be done."""
        with self._lock:
            if self._now.phase == "working":
                self._end(phase="done", result=self._answer)

    def close(self) -> None:
        """Nothing runs."""


def answers(bench: Bench) -> tuple[Mapping[str, Any], Mapping[str, Any]]:
    """What is found for an aeroplane by the real tasks: a layout, and its option beside it."""
    held = bench.held()
    given = {"free": ("rx",), "alternatives": 1, "work": 1, "columns": [("aft",)], "options": (),
             "folder": str(bench.folder.path), "texts": dict(held.workspace.texts)}  # fmt: skip
    return (seek_layouts(given, lambda _: None, lambda: False),
            compare_options(given, lambda _: None, lambda: False))  # fmt: skip
