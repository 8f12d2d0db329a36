"""Who may come in: one-time codes that the terminal shows, and the sessions they open."""

from __future__ import annotations

import hmac
import secrets
from collections.abc import Callable, Iterable
from threading import Lock

MOST_SESSIONS = 24  # a workshop has fewer devices; the oldest goes first


class Gate:
    """One-time codes and sessions of one run of the workbench; nothing of it is written anywhere.

    `origins` are the addresses that browsers may know this program by, such as
    `http://127.0.0.1:8620`. `tell` hears each new code, so that the terminal can show it.

    >>> gate = Gate(["http://127.0.0.1:8620"])
    >>> session = gate.enter(gate.code)
    >>> gate.knows(session or ""), gate.enter("guessed")
    (True, None)
    """

    def __init__(self, origins: Iterable[str], tell: Callable[[str], None] | None = None) -> None:
        self.origins = frozenset(origins)
        self.hosts = frozenset(one.partition("://")[2] for one in self.origins)
        ports = {host.rpartition(":")[2] for host in self.hosts}
        self.cookie = f"hardstand-{min(ports, default='0')}"  # cookies know no ports: the name does
        self._tell = tell
        self._sessions: dict[str, None] = {}
        self._lock = Lock()
        self.code = _token()

    def enter(self, code: str) -> str | None:
        """A new session for the code in force, which is then spent; None for any other."""
        with self._lock:
            if not hmac.compare_digest(code.encode(), self.code.encode()):
                return None
            self.code = _token()
            session = _token()
            self._sessions[session] = None
            while len(self._sessions) > MOST_SESSIONS:
                del self._sessions[next(iter(self._sessions))]
        if self._tell is not None:
            self._tell(self.code)
        return session

    def knows(self, session: str) -> bool:
        """Whether a session was opened here."""
        with self._lock:
            sessions = list(self._sessions)
        same = [hmac.compare_digest(session.encode(), one.encode()) for one in sessions]
        return any(same)  # every one is compared, so that time tells nothing


def _token() -> str:
    return secrets.token_urlsafe(18)
