"""Cases of one network one after the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields
from typing import Any

import numpy as np

from hardstand.engines.power.network.cases import Cases


def stacked(pieces: Sequence[Cases]) -> Cases:
    """Several sets of cases as one, in their order; rows that all cases share are written out."""
    made: dict[str, Any] = {}
    for one in fields(Cases):
        arrays = [getattr(piece, one.name) for piece in pieces]
        made[one.name] = np.concatenate([
            np.broadcast_to(array, (piece.count, array.shape[1]))
            for array, piece in zip(arrays, pieces, strict=True)])  # fmt: skip
    return Cases(**made)
