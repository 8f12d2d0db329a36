"""Requests of every kind to the workbench: `python -m tests.workbench.fuzz_requests 20000`."""

from __future__ import annotations

import sys
import tempfile
import time
from pathlib import Path

from tests.workbench.robust.requests_run import run


def main() -> int:
    """Put as many requests as are asked for; prints the table; 1 where anything was wrong."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    began = time.process_time()
    with tempfile.TemporaryDirectory() as folder:
        tally = run(count, Path(folder), lambda words: print(words, file=sys.stderr))  # noqa: T201 it is a script
    took = time.process_time() - began
    print(f"{tally.table()}\n{took:.0f} s of processor time, {1000 * took / tally.count:.1f} ms a request")  # noqa: T201
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
