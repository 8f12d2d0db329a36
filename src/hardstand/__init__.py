"""Fit-out of a large turbine model jet, computed from one description of the aeroplane.

The package reads a folder with `aeroplane.toml`, lays options and measurements over it, computes
clearance, balance and the rest in `hardstand.engines`, and shows one assessment in several ways.
Lengths are in millimetres in one right-handed frame: x aft from the datum, y to starboard, z up.
"""

__version__ = "0.1.0"
