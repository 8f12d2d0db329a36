"""What was made of the very same frozen things before, so that it need not be made again.

Rows that an edit did not touch are the same objects from one reading to the next, so asking for
them by identity costs next to nothing and can never take one content for another.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

Result = TypeVar("Result")


class Made(Generic[Result]):
    """Results by the things that they were made of; the `most` used last are kept."""

    def __init__(self, most: int) -> None:
        self._kept: dict[Hashable, tuple[tuple[object, ...], Result]] = {}
        self._most = most

    def of(
        self, things: tuple[object, ...], also: Hashable, make: Callable[[], Result]
    ) -> Result:
        """The result for these frozen things, and for what is equal in `also`; made if not known.

        What `make` raises is raised and not kept.

        >>> made, row, asked = Made(2), ("row",), []
        >>> def length(): asked.append("length"); return 3
        >>> made.of((row,), 1, length), made.of((row,), 1, length), asked
        (3, 3, ['length'])
        """
        key = (also, *map(id, things))
        known = self._kept.pop(key, None)
        if known is None:  # an id in a key is that of a thing kept alive beside it
            known = (things, make())
        self._kept[key] = known
        while len(self._kept) > self._most:
            self._kept.pop(next(iter(self._kept)), None)
        return known[1]

