"""Running one command: every way in which it can end becomes a page and an exit status."""

from __future__ import annotations

import os
import sys
import traceback
from collections.abc import Sequence
from contextlib import redirect_stderr, redirect_stdout
from typing import TYPE_CHECKING, TextIO

import click

from hardstand.cli.refusal import UNREADABLE, USAGE, Refusal
from hardstand.cli.talk import ReaderGoneError, Talk, talk_on
from hardstand.views.problems import UNREAD, problems_page
from hardstand.views.trouble import trouble_page
from hardstand.views.words import sentence

if TYPE_CHECKING:
    from hardstand.description.problems import UnreadableError

INTERRUPTED, READER_GONE = 130, 141
_COMPLETING = "_HARDSTAND_COMPLETE"


def run_on(argv: Sequence[str], stdout: TextIO, stderr: TextIO) -> int:
    """Run a command on two streams; returns its exit status and raises nothing."""
    talk = talk_on(stdout, stderr, os.environ)
    try:
        with redirect_stdout(stdout), redirect_stderr(stderr):
            status = _ended(list(argv), talk)
            stdout.flush()
            return status
    except (BrokenPipeError, ReaderGoneError):
        return _reader_gone(stdout)


def _ended(argv: list[str], talk: Talk) -> int:
    from hardstand.cli.program import program

    try:
        status = program.main(args=argv, prog_name="hardstand", standalone_mode=False, obj=talk)
        return status if isinstance(status, int) else 0
    except click.UsageError as error:
        return _usage(error, talk)
    except Refusal as refusal:
        return _trouble(talk, refusal.what, refusal.hint, refusal.status)
    except (click.Abort, KeyboardInterrupt):
        talk.say(trouble_page("Stopped.", "", talk.measure))
        return INTERRUPTED
    except SystemExit as end:  # so the library ends where a shell asks it to complete, or help is cut
        if _COMPLETING in os.environ:
            return end.code if isinstance(end.code, int) else 0
        raise ReaderGoneError from None
    except (BrokenPipeError, ReaderGoneError):
        raise
    except Exception as error:  # noqa: BLE001 whatever it is, a builder gets a sentence
        return _unreadable(error, talk)


def _usage(error: click.UsageError, talk: Talk) -> int:
    path = error.ctx.command_path if error.ctx else "hardstand"
    hint = f"`{path} --help` shows how it is written."
    return _trouble(talk, sentence(error.format_message()), hint, USAGE)


def _trouble(talk: Talk, what: str, hint: str, status: int) -> int:
    if talk.as_json:
        talk.data({"format": 1, "error": {"what": what, "hint": hint}})
    else:
        talk.say(trouble_page(what, hint, talk.measure))
    return status


def _unreadable(error: Exception, talk: Talk) -> int:
    from hardstand.description.problems import UnreadableError

    if isinstance(error, UnreadableError):
        return say_problems(talk, error)
    if isinstance(error, OSError):
        reason = (error.strerror or str(error)).lower()
        what = f"{error.filename}: {reason}." if error.filename else f"The system says: {reason}."
        return _trouble(talk, what, "Nothing else was changed.", UNREADABLE)
    return _fault(error, talk)


def say_problems(talk: Talk, error: UnreadableError, head: str = UNREAD) -> int:
    """Print every problem of a description that could not be read; returns the exit status."""
    problems = [one.as_json() for one in error.problems]
    if talk.as_json:
        talk.data({"format": 1, "problems": problems})
    else:
        talk.say(problems_page(problems, talk.measure, head))
    return UNREADABLE


def _fault(error: Exception, talk: Talk) -> int:
    """A fault of the program itself: one sentence, and the whole trace only where it is asked for."""
    if os.environ.get("HARDSTAND_DEBUG") == "1":
        talk.err.write("".join(traceback.format_exception(error)))
    what = f"hardstand itself failed here ({type(error).__name__}); your files are as they were."
    hint = ("Please report it with the command you gave, the aeroplane's folder, and what is "
            "printed when HARDSTAND_DEBUG=1 is set.")
    return _trouble(talk, what, hint, UNREADABLE)


def _reader_gone(stdout: TextIO) -> int:
    """Whoever read the output has gone away: end quietly, as the system's own tools do."""
    if stdout is sys.stdout:  # what is still to be written at the end goes nowhere
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stdout.fileno())
        os.close(nowhere)
    return READER_GONE
