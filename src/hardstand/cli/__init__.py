"""The command line.

`main` is the program; `run` is the same within a process: it takes the words of a command and two
streams, returns the exit status and never raises. Exit status: 0 no no-go, 1 a no-go stands,
2 could not read, 3 wrong usage.
"""

from __future__ import annotations

import os
import sys
import warnings
from collections.abc import Sequence
from typing import NoReturn, TextIO

__all__ = ["main", "run"]


def run(argv: Sequence[str], stdout: TextIO | None = None, stderr: TextIO | None = None) -> int:
    """Run one command as the program does and return its exit status; raises nothing.

    >>> import io
    >>> run(["explian"], io.StringIO(), io.StringIO())
    3
    """
    from hardstand.cli.running import run_on

    return run_on(argv, stdout or sys.stdout, stderr or sys.stderr)


# The matrices here are small: a library of linear algebra that shares each of them among threads
# spends more on the threads than it saves, and on a busy machine many times more. It looks at these
# when it is loaded, so they are set before anything imports it; what a user has set stays.
_ONE_THREAD = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")


def main() -> NoReturn:
    """The program `hardstand`. What libraries warn of is for its developers, not for a builder."""
    for name in _ONE_THREAD:
        os.environ.setdefault(name, "1")
    if os.environ.get("HARDSTAND_DEBUG") != "1":
        warnings.simplefilter("ignore")
    sys.exit(run(sys.argv[1:]))
