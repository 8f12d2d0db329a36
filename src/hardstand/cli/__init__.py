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


def one_thread() -> None:
    """Let the libraries of linear algebra use one thread each, unless the user has set it.

    The matrices here are small: sharing each of them among threads costs more than it saves, and on a
    busy machine many times more. The libraries look at it when they are loaded, so it comes first.
    """
    for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
        os.environ.setdefault(name, "1")


def main() -> NoReturn:
    """The program `hardstand`. What libraries warn of is for its developers, not for a builder."""
    one_thread()
    if os.environ.get("HARDSTAND_DEBUG") != "1":
        warnings.simplefilter("ignore")
    sys.exit(run(sys.argv[1:]))
