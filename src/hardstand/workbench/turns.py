"""Who may go on: what is to be written goes ahead of what is only tried."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock, RLock


class SupersededError(Exception):
    """What was only tried gave way to a change that is to be written."""


class Turns:
    """One lock for all who read or alter one aeroplane; a trial asks now and then whether to go on.

    >>> turns = Turns()
    >>> with turns.ahead():
    ...     turns.give_way()
    Traceback (most recent call last):
    hardstand.workbench.turns.SupersededError
    """

    def __init__(self) -> None:
        self.lock = RLock()
        self._count, self._waiting = Lock(), 0

    @contextmanager
    def ahead(self) -> Iterator[None]:
        """The lock, ahead of trials: one that runs ends at its next question."""
        with self._count:
            self._waiting += 1
        try:
            with self.lock:
                yield
        finally:
            with self._count:
                self._waiting -= 1

    def give_way(self, _: object = None) -> None:
        """Raise SupersededError where someone who is to write waits for the lock, or holds it."""
        if self._waiting:
            raise SupersededError
