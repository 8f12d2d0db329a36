"""What a node keeps from one run to the next, so that after an edit only what changed is worked out.

It is found by content alone, so it can save work and never change a result. A node that is run
without it, or with an empty one, returns the same to the bit.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Index = NDArray[np.intp]
Content = TypeVar("Content")
Result = TypeVar("Result")


class Kept:
    """Parts of one node's last run under names of the node's own."""

    def __init__(self) -> None:
        self._rows: dict[str, tuple[dict[Hashable, int], Floats]] = {}
        self._each: dict[str, dict[str, tuple[Any, Any]]] = {}

    def rows(self, name: str, keys: Sequence[Hashable], make: Callable[[Index], Floats]) -> Floats:
        """Rows (N, W) of numbers, row k by the content keys[k]; `make` works out those not known.

        `make` is given the places (M,) of the rows wanted and returns them (M, W).

        >>> kept, asked = Kept(), []
        >>> def squares(places): asked.append(places.tolist()); return places[:, None] ** 2.0
        >>> kept.rows("squares", ["a", "b"], squares).ravel().tolist()
        [0.0, 1.0]
        >>> kept.rows("squares", ["b", "a", "c"], squares).ravel().tolist(), asked
        ([1.0, 0.0, 4.0], [[0, 1], [2]])
        """
        known, before = self._rows.get(name, ({}, np.zeros((0, 0))))
        at = np.array([known.get(key, -1) for key in keys], dtype=np.intp)
        new = np.flatnonzero(at < 0)
        if not len(known) or len(new) == len(keys):
            found = make(np.arange(len(keys)))
        else:
            found = before[np.maximum(at, 0)]
            if len(new):
                found[new] = make(new)
        self._rows[name] = (dict(zip(keys, range(len(keys)), strict=True)), found)
        return found

    def each(
        self, name: str, contents: Mapping[str, Content], make: Callable[[Content], Result]
    ) -> dict[str, Result]:
        """The result of each content by its id, made anew only where the content is another.

        >>> kept, asked = Kept(), []
        >>> def longer(word): asked.append(word); return word + "s"
        >>> kept.each("plurals", {"a": "tray", "b": "bay"}, longer)
        {'a': 'trays', 'b': 'bays'}
        >>> kept.each("plurals", {"a": "tray", "b": "box"}, longer), asked
        ({'a': 'trays', 'b': 'boxs'}, ['tray', 'bay', 'box'])
        """
        before = self._each.get(name, {})
        after: dict[str, tuple[Any, Any]] = {}
        for one, content in contents.items():
            last = before.get(one)
            same = last is not None and last[0] == content
            after[one] = last if last is not None and same else (content, make(content))
        self._each[name] = after
        return {one: result for one, (_, result) in after.items()}
