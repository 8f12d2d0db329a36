"""Serving one aeroplane: the addresses it is reached by, one workbench at a time, the server itself."""

from __future__ import annotations

import contextlib
import socket
from collections.abc import Callable, Iterator
from pathlib import Path

import uvicorn

from hardstand.description.lock import FolderBusyError, FolderLock
from hardstand.description.storage import Folder
from hardstand.workbench.application import make_app
from hardstand.workbench.bench import Bench
from hardstand.workbench.gate import Gate

PORT = 8620
_MOST_AT_ONCE, _FAREWELL_S = 64, 2


class ServedAlreadyError(RuntimeError):
    """Another workbench has this aeroplane open; `at` is its address, where it is known."""

    def __init__(self, at: str) -> None:
        self.at = at
        super().__init__(at)


@contextlib.contextmanager
def alone(folder: Folder, address: str) -> Iterator[None]:
    """Hold an aeroplane's folder as the only workbench over it; raises ServedAlreadyError."""
    with folder.locked():  # which makes the place for the lock
        lock = FolderLock(folder.state / "workbench", wait_s=0.0)
    beside = folder.state / "workbench-address"
    try:
        lock.__enter__()
    except FolderBusyError:
        raise ServedAlreadyError(_read(beside)) from None
    try:
        beside.write_text(address, encoding="utf-8")
        yield
    finally:
        with contextlib.suppress(OSError):
            beside.unlink()
        lock.__exit__(None, None, None)


def _read(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")[:200]
    except OSError:
        return ""


def listening(host: str, port: int) -> socket.socket:
    """A socket that listens at an address; raises OSError where something else does already.

    Port 0 takes any that is free.
    """
    found = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        found.bind((host, port))
        found.listen(64)
    except OSError:
        found.close()
        raise
    return found


def lan_address() -> str:
    """This machine's address in its own network; the loopback address where it is in none.

    Nothing is sent: a datagram socket only has to choose the way that it would take.
    """
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # an address for documentation, RFC 5737
            return str(probe.getsockname()[0])
        except OSError:
            return "127.0.0.1"


def origins_of(port: int, lan: str | None) -> list[str]:
    """The origins that pages may come from, the one to be shown first.

    >>> origins_of(8620, None)[0]
    'http://127.0.0.1:8620'
    """
    own = [f"http://127.0.0.1:{port}", f"http://localhost:{port}"]
    return [f"http://{lan}:{port}", *own] if lan else own


class _Server(uvicorn.Server):
    """The server, which says when it answers."""

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started:
            self._ready()


def serve(bench: Bench, gate: Gate, at: socket.socket, ready: Callable[[], None]) -> None:
    """Serve until it is stopped; `ready` is called once it answers."""
    config = uvicorn.Config(
        make_app(bench, gate), log_level="error", access_log=False, server_header=False, ws="none",
        http="h11", limit_concurrency=_MOST_AT_ONCE, timeout_graceful_shutdown=_FAREWELL_S,
        proxy_headers=False,
    )  # fmt: skip
    _Server(config, ready).run(sockets=[at])
