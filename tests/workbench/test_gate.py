"""Who may come in."""

from __future__ import annotations

from hardstand.workbench.gate import MOST_SESSIONS, Gate


def test_a_code_works_once_and_the_next_is_told() -> None:
    """A code opens one session; the terminal then hears another, and the spent one opens nothing."""
    told: list[str] = []
    gate = Gate(["http://127.0.0.1:8620"], told.append)
    code = gate.code
    session = gate.enter(code)
    assert session is not None
    assert gate.knows(session)
    assert told == [gate.code]
    assert gate.code != code
    assert gate.enter(code) is None


def test_nothing_but_a_session_is_known() -> None:
    """Neither an empty word nor a code is a session."""
    gate = Gate(["http://127.0.0.1:8620"])
    assert not gate.knows("")
    assert not gate.knows(gate.code)


def test_the_oldest_session_goes_when_there_are_many() -> None:
    """Sessions are bounded in number, and the oldest ends first."""
    gate = Gate(["http://127.0.0.1:8620"])
    sessions = [gate.enter(gate.code) or "" for _ in range(MOST_SESSIONS + 1)]
    assert not gate.knows(sessions[0])
    assert all(gate.knows(one) for one in sessions[1:])


def test_two_ports_have_two_cookies() -> None:
    """Cookies do not tell ports apart, so their names do."""
    assert Gate(["http://127.0.0.1:1"]).cookie != Gate(["http://127.0.0.1:2"]).cookie
