"""Papers and the scales that drawings are printed at (ISO 5455)."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

Paper = Literal["A4", "Letter"]
# Landscape, mm. A4: ISO 216; Letter: ANSI/ASME Y14.1.
PAPERS: Mapping[Paper, tuple[float, float]] = {"A4": (297.0, 210.0), "Letter": (279.4, 215.9)}
# What both papers have inside their borders, so that one scale fits both.
CONTENT_MM = (249.0, 190.0)
SCALES = (5.0, 2.0, 1.0, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100, 1 / 200, 1 / 500)


def scale_for(model_mm: tuple[float, float], room_mm: tuple[float, float]) -> float:
    """The largest scale at which something fits the room; the smallest there is where none does.

    >>> scale_for((2400.0, 600.0), (249.0, 60.0))
    0.1
    """
    ratio = min(room / size for room, size in zip(room_mm, model_mm, strict=True))
    return next((one for one in SCALES if one <= ratio), SCALES[-1])


def scale_text(scale: float) -> str:
    """A scale as ISO 5455 writes it.

    >>> scale_text(0.05), scale_text(1.0), scale_text(2.0)
    ('1:20', '1:1', '2:1')
    """
    return f"{scale:.0f}:1" if scale > 1.0 else f"1:{1.0 / scale:.0f}"
