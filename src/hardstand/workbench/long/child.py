"""The other end: one task in a process of its own, which ends with the program that began it."""

from __future__ import annotations

import contextlib
import os
import signal
import threading
from collections.abc import Mapping
from multiprocessing.connection import Connection
from typing import Any

from hardstand.description.problems import UnreadableError
from hardstand.workbench.long.value import NothingFoundError, Task

NICER = 2  # steps of priority given up, so that a hand at the page comes first


def run(pipe: Connection, task: Task, asked: Mapping[str, Any]) -> None:
    """Do a task and tell through the pipe of every step and of what it came to.

    Whatever comes from the other side, or its end, asks the task to stop. A fault of the program is
    printed and ends the process, which the other side sees.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the terminal's is for the program, which ends this
    if hasattr(os, "nice"):
        with contextlib.suppress(OSError):
            os.nice(NICER)
    stop = threading.Event()
    threading.Thread(target=_hear, args=(pipe, stop), daemon=True).start()
    said: tuple[str, Any]
    try:
        said = ("done", task(asked, lambda words: pipe.send(("told", words)), stop.is_set))
    except UnreadableError as error:
        said = ("problems", error.problems)
    except NothingFoundError as error:
        said = ("trouble", str(error))
    except OSError:  # nobody listens any more
        return
    with contextlib.suppress(OSError):
        pipe.send(said)


def _hear(pipe: Connection, stop: threading.Event) -> None:
    with contextlib.suppress(EOFError, OSError):
        pipe.recv()
    stop.set()
