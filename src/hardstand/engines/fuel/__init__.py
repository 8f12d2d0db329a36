"""Fuel: where the fuel is in every tank at every fill and attitude, and what it weighs on.

Tanks are closed solids in the aeroplane's axes (x aft, y starboard, z up). The liquid lies under a
plane square to the apparent gravity; its volume, middle and inertia are exact for flat-faced
solids. Waves, baffles that hold fuel back and fuel in the lines are outside this engine.
"""

from hardstand.engines.fuel.stage import STAGE

__all__ = ["STAGE"]
