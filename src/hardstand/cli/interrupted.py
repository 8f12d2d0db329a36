"""Ctrl-C as a wish to end with what there is, not as an end of everything."""

from __future__ import annotations

import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any


@contextmanager
def interruptible() -> Iterator[Callable[[], bool]]:
    """Yields a function that tells whether Ctrl-C was pressed; pressed again it ends as always.

    Outside of the main thread, where signals do not come, it is always False.
    """
    pressed = threading.Event()
    if threading.current_thread() is not threading.main_thread():
        yield pressed.is_set
        return

    def press(number: int, frame: Any) -> None:  # noqa: ARG001 given by the system
        if pressed.is_set():
            raise KeyboardInterrupt
        pressed.set()

    before = signal.signal(signal.SIGINT, press)
    try:
        yield pressed.is_set
    finally:
        signal.signal(signal.SIGINT, before)
