"""Drawings kept for the state of the folder that they show: names take a while to find their room."""

from __future__ import annotations

from collections.abc import Callable
from threading import Lock
from typing import Any

MOST = 24


class Drawings:
    """The latest drawings by what they show. A drawing is made once, however many pages ask for it."""

    def __init__(self) -> None:
        self._kept: dict[tuple[Any, ...], Any] = {}
        self._lock = Lock()

    def get_or(self, key: tuple[Any, ...], make: Callable[[], Any]) -> Any:
        """The drawing of a key, or what `make` returns, kept from now on."""
        with self._lock:
            found = self._kept.get(key)
        if found is None:
            found = make()
            with self._lock:
                self._kept[key] = found
                while len(self._kept) > MOST:
                    del self._kept[next(iter(self._kept))]
        return found
