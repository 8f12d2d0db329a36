"""Commands whose help is composed like the program's other pages."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import click

from hardstand.cli.help_page import command_help, program_help
from hardstand.cli.refusal import did_you_mean
from hardstand.cli.talk import talk_on


class Argument(click.Argument):
    """An argument that has a help text, as options do."""

    def __init__(self, param_decls: Sequence[str], help: str = "", **attrs: Any) -> None:  # noqa: A002
        super().__init__(param_decls, **attrs)
        self.help = help


class Command(click.Command):
    """A command with its section in the program's help, and its own help page."""

    def __init__(self, *args: Any, section: str = "", **attrs: Any) -> None:
        self.section = section
        super().__init__(*args, **attrs)

    def get_help(self, ctx: click.Context) -> str:
        """The help page, painted for standard output."""
        return _painted(ctx, command_help(self, ctx.command_path, _measure(ctx)))


class Program(click.Group):
    """The program: its commands in the order a builder meets them."""

    command_class = Command

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 the base class asks for it
        """The commands in the order they were added."""
        return list(self.commands)

    def get_help(self, ctx: click.Context) -> str:
        """The help page, painted for standard output."""
        return _painted(ctx, program_help(self, _measure(ctx)))

    def resolve_command(
        self, ctx: click.Context, args: list[str],
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command that was named; raises UsageError with the nearest name."""
        if args and args[0] not in self.commands:
            if args[0].startswith("-"):
                return super().resolve_command(ctx, args)
            hint = did_you_mean(args[0], self.commands, "`hardstand --help` lists the commands.")
            raise click.UsageError(f"There is no command {args[0]}. {hint}", ctx)
        return super().resolve_command(ctx, args)


def _talk(ctx: click.Context) -> Any:
    import os
    import sys

    return ctx.obj or talk_on(sys.stdout, sys.stderr, os.environ)


def _measure(ctx: click.Context) -> int:
    return int(_talk(ctx).measure)


def _painted(ctx: click.Context, lines: Any) -> str:
    from hardstand.views.paint import paint

    talk = _talk(ctx)
    encoding = getattr(talk.out, "encoding", None) or "utf-8"
    return paint(lines, colour=talk.colour_out, encoding=encoding).rstrip("\n")
