"""Long work: what takes longer than a page may wait, done in a process of its own and told of as it goes.

Each kind of it is done once at a time for an aeroplane. It rests on the texts that stood there when it
was begun, goes on when the page is closed, and keeps what it came to until it is begun again.
"""

from hardstand.workbench.long.value import AtWorkError, NothingFoundError, Standing
from hardstand.workbench.long.work import LongWork

__all__ = ["AtWorkError", "LongWork", "NothingFoundError", "Standing"]
