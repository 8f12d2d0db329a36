"""The as-built aeroplane: what is intended, as chosen by options and as measured, in one frozen value.

`build(description)` lays the measurements over a description whose options were laid over on reading.
"""

from hardstand.asbuilt.build import build
from hardstand.asbuilt.value import AsBuilt

__all__ = ["AsBuilt", "build"]
