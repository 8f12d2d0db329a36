"""A convex solid with what it stands for, and how its place and size follow the numbers written down.

Every check of this engine is a distance between two pieces: the box of an item, the room of a plug,
a wedge under the tub. What a piece follows is what carries its uncertainty.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from hardstand.engines.fit.body import Body, Floats, aabb
from hardstand.figures import Input

Role = Literal["item", "zone", "hot", "keep_out", "tray", "hole", "sweep", "aerial", "lead"]
FIXED: tuple[Role, ...] = ("keep_out", "tray", "hole")


@dataclass(frozen=True, eq=False, slots=True)
class Follow:
    """How a piece follows one input, per unit of it.

    `centre` (3,) is how the piece moves, in the aeroplane's axes; `half` (3,) how its half sizes
    grow (a cylinder's: radius, radius, half length); `surface` how far its whole surface moves out.
    """

    input: Input
    centre: Floats
    half: Floats
    surface: float = 0.0


@dataclass(frozen=True, slots=True)
class Owner:
    """The row a piece belongs to, and what the rules need to know of it.

    `group` joins items and what they are mounted on: `on` is the tray, `supports` what the item may
    touch. `electric` and `fuel` say what is in it, `metal` that heat does not harm it.
    """

    id: str
    name: str
    table: Literal["item", "keep_out", "tray", "hole", "antenna", "lead"]
    kind: str
    on: str | None = None
    supports: frozenset[str] = frozenset()
    electric: bool = False
    fuel: bool = False
    metal: bool = False
    hot: bool = False
    assumed: bool = False
    removable: bool = False


@dataclass(frozen=True, eq=False, slots=True)
class Piece:
    """One convex solid. `subject` is its name in a figure's address: `rx-left`, `rx-left.front`."""

    body: Body
    role: Role
    owner: Owner
    subject: str
    follows: tuple[Follow, ...]
    electric: bool = False


@dataclass(frozen=True, eq=False)
class Solids:
    """All pieces aboard in a fixed order (by table and id), and the names of rows for people.

    low_mm, high_mm (P, 3): how far each piece reaches along the axes.
    """

    pieces: tuple[Piece, ...]
    names: Mapping[str, str]
    low_mm: Floats
    high_mm: Floats

    def of_role(self, *roles: Role) -> list[int]:
        """Indices of the pieces of some roles, in order."""
        return [i for i, piece in enumerate(self.pieces) if piece.role in roles]


def spans(pieces: Sequence[Piece]) -> tuple[Floats, Floats]:
    """How far pieces reach along the axes: lowest and highest corners (P, 3)."""
    ends = np.array([aabb(piece.body) for piece in pieces]).reshape(-1, 2, 3)
    return ends[:, 0], ends[:, 1]
