"""The long run: `python -m tests.fuzz COUNT [FIRST]`, from the project's folder.

Prints the shares of the kinds, the exit statuses, the longest time, how many reached an engine, and
everything that must not be; ends with 1 where there is any.
"""

from __future__ import annotations

import os
import sys


def main() -> int:
    """Run the corrupted aeroplanes of the numbers from FIRST and print the table."""
    for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
        os.environ.setdefault(name, "1")  # the matrices are small: threads only get in the way
    from tests.fuzz.run import run_all

    count, first = (*(int(one) for one in sys.argv[1:3]), *(2000, 0)[len(sys.argv) - 1 :])
    tally = run_all(count, first)
    print(tally.table())  # noqa: T201 it talks to a person
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
