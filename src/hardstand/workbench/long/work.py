"""One kind of long work on one aeroplane: begun, watched, stopped, and what it came to."""

from __future__ import annotations

import contextlib
import multiprocessing
import time
from collections.abc import Callable, Mapping
from dataclasses import replace
from threading import Lock, Thread
from typing import TYPE_CHECKING, Any

from hardstand.workbench.long.child import run
from hardstand.workbench.long.value import AtWorkError, Standing, Task

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.process import BaseProcess

    from hardstand.workbench.bench import Held

KEPT = 60  # the latest words that are kept
LOOK_S, CALM_S = 1.0, 0.25  # how long is waited for a word; the least time between two tellings
FAULT = "The work ended before it came to anything: by a fault that the terminal shows, or from outside."


class LongWork:
    """Does one task at a time in a process of its own; `listen` hears whenever there is something new."""

    def __init__(self, task: Task) -> None:
        self._task = task
        self._lock = Lock()
        self._now = Standing()
        self._began = 0.0
        self._pipe: Connection | None = None
        self._process: BaseProcess | None = None
        self._listeners: list[Callable[[], None]] = []

    @property
    def now(self) -> Standing:
        """How far it is."""
        with self._lock:
            if self._now.phase != "working":
                return self._now
            return replace(self._now, seconds=time.monotonic() - self._began)

    def listen(self, listener: Callable[[], None]) -> None:
        """Call a listener, from another thread, whenever there is something new."""
        self._listeners.append(listener)

    def start(self, about: Held, asked: Mapping[str, Any]) -> Standing:
        """Begin; what was found before is given up. Raises AtWorkError where it is at work already."""
        spawning = multiprocessing.get_context("spawn")
        with self._lock:
            if self._now.phase == "working":
                raise AtWorkError
            here, there = spawning.Pipe()
            workspace = about.workspace
            given = {**asked, "folder": str(workspace.folder.path), "texts": dict(workspace.texts),
                     "options": workspace.options}  # fmt: skip
            process = spawning.Process(target=run, args=(there, self._task, given), daemon=True)
            self._began = time.monotonic()
            process.start()
            there.close()  # or its end would never be seen on this side
            self._now = Standing(self._now.number + 1, "working", about, dict(asked))
            self._pipe, self._process = here, process
        Thread(target=self._watch, args=(here, process), daemon=True).start()
        return self.now

    def stop(self) -> None:
        """Ask for an end with the best found so far; nothing where nothing is at work."""
        with self._lock, contextlib.suppress(OSError):
            if self._now.phase == "working" and self._pipe is not None and not self._now.stopping:
                self._now = replace(self._now, stopping=True)
                self._pipe.send("stop")

    def close(self) -> None:
        """End the process without waiting for what it would find."""
        with self._lock:
            process = self._process
        if process is not None:
            process.terminate()
            process.join(5.0)

    def _watch(self, pipe: Connection, process: BaseProcess) -> None:
        """Take what is told until the work is done or the process gone."""
        open_ = True
        while open_:
            open_ = self._taken(pipe)
            self._tell()
            time.sleep(CALM_S if open_ else 0.0)
        process.join()
        pipe.close()
        with self._lock:
            self._process = self._pipe = None
            if self._now.phase == "working":
                self._end(phase="failed", trouble=FAULT)
        self._tell()

    def _taken(self, pipe: Connection) -> bool:
        """Take all that there is to hear; False after the last."""
        wait_s = LOOK_S
        while True:
            try:
                if not pipe.poll(wait_s):
                    return True
                kind, value = pipe.recv()
            except (EOFError, OSError):
                return False
            wait_s = 0.0
            with self._lock:
                if kind == "told":
                    told = (*self._now.told, (time.monotonic() - self._began, value))[-KEPT:]
                    self._now = replace(self._now, told=told)
                elif kind == "done":
                    self._end(phase="done", result=value)
                elif kind == "problems":
                    self._end(phase="failed", problems=value)
                else:
                    self._end(phase="failed", trouble=value)

    def _end(self, **fields: Any) -> None:
        self._now = replace(self._now, seconds=time.monotonic() - self._began, **fields)

    def _tell(self) -> None:
        for one in self._listeners:
            one()
