"""Progress on the terminal for whatever takes longer than a moment; nothing at all on a pipe."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from hardstand.cli.talk import Talk
from hardstand.views.paint import narrowed

MOMENT_S = 0.7
_STEP_S = 0.2


@contextmanager
def progress(talk: Talk, first: str) -> Iterator[Callable[[str], None]]:
    """Shows what is being done, once it has taken a moment, on one line that is wiped at the end.

    Yields a function that is told the name of each step before it begins.
    """
    if not talk.colour_err:
        yield lambda _step: None
        return
    shown = _Shown(talk, first)
    shown.start()
    try:
        yield shown.tell
    finally:
        shown.stop()


class _Shown(threading.Thread):
    """Draws the line in a thread of its own, so that a long step shows that it is at work."""

    def __init__(self, talk: Talk, first: str) -> None:
        super().__init__(daemon=True)
        self._talk, self._step = talk, first
        self._begun = time.monotonic()
        self._over = threading.Event()
        self._drawn = False

    def tell(self, step: str) -> None:
        self._step = step

    def run(self) -> None:
        wait = MOMENT_S
        while not self._over.wait(wait):
            wait = _STEP_S
            passed = time.monotonic() - self._begun
            self._draw(f"↔ {self._step}, {passed:.1f} s")

    def stop(self) -> None:
        self._over.set()
        self.join()
        if self._drawn:
            self._write("\r\x1b[K")

    def _draw(self, text: str) -> None:
        encoding = getattr(self._talk.err, "encoding", None) or "utf-8"
        cut = narrowed(text, encoding)[: self._talk.measure]
        self._write(f"\r\x1b[K\x1b[2m{cut}\x1b[0m")
        self._drawn = True

    def _write(self, text: str) -> None:
        self._talk.err.write(text)
        self._talk.err.flush()
