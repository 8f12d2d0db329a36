"""A convex solid with what it stands for, and how its place and size follow the numbers written down.

Every check of this engine is a distance between two pieces: the box of an item, the room of a plug,
a wedge under the tub. What a piece follows is what carries its uncertainty.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from hardstand.engines.fit.body import Body, Floats
from hardstand.engines.fit.stack import Stack
from hardstand.figures import Input

if TYPE_CHECKING:
    from hardstand.engines.fit.follow_table import FollowTable
    from hardstand.engines.fit.item_frame import ItemFrame

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

    `frames` are the axes and inputs of the items by id. Piece for piece (P): the bodies as one stack,
    low_mm, high_mm (P, 3): how far each reaches along the axes, and what it follows as one table.
    """

    pieces: tuple[Piece, ...]
    names: Mapping[str, str]
    frames: Mapping[str, ItemFrame]
    bodies: Stack
    low_mm: Floats
    high_mm: Floats
    table: FollowTable

    def of_role(self, *roles: Role) -> list[int]:
        """Indices of the pieces of some roles, in order."""
        return [i for i, piece in enumerate(self.pieces) if piece.role in roles]
