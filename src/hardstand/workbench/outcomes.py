"""Outcomes kept for the page that a browser is sent on to, so that reloading does nothing twice."""

from __future__ import annotations

from threading import Lock

from hardstand.workbench.outcome import Outcome

MOST = 50


class Outcomes:
    """The latest outcomes by number."""

    def __init__(self) -> None:
        self._kept: dict[str, Outcome] = {}
        self._next = 0
        self._lock = Lock()

    def keep(self, outcome: Outcome) -> str:
        """Keep an outcome and return its number."""
        with self._lock:
            self._next += 1
            name = str(self._next)
            self._kept[name] = outcome
            while len(self._kept) > MOST:
                del self._kept[next(iter(self._kept))]
            return name

    def kept(self, name: str) -> Outcome | None:
        """The outcome of a number, where it is still known."""
        with self._lock:
            return self._kept.get(name)
