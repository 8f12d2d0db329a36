"""Published tables and formulas as data and small functions: units first, then what engines share.

Nothing here knows an aeroplane. Each module carries the source of its figures beside them.
"""
