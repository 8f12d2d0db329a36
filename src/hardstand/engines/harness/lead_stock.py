"""Leads as they are sold: the lengths of extension leads, and which one to take."""

from __future__ import annotations

# Lengths in which extension leads are usual, mm; common practice, no source.
STANDARD_MM = (100, 150, 200, 250, 300, 400, 500, 600, 750, 900, 1000, 1200, 1500, 2000)


def standard_length_mm(needed_mm: float) -> int | None:
    """The shortest usual extension lead that is long enough, mm; None where none is.

    >>> standard_length_mm(310.0), standard_length_mm(100.0), standard_length_mm(2500.0)
    (400, 100, None)

    Source: common practice, no source.
    """
    return next((one for one in STANDARD_MM if one >= needed_mm), None)
