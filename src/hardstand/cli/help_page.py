"""The help pages: what a command does in a sentence, how it is written, what it takes."""

from __future__ import annotations

import inspect
from collections.abc import Mapping

import click

from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, indented, line
from hardstand.views.table import Cell, Column, table
from hardstand.views.titles import title

_STATUS = "Exit status: 0 no no-go, 1 a no-go stands, 2 could not read, 3 wrong usage."


def program_help(program: click.Group, measure: int) -> list[Line]:
    """The page of `hardstand --help`: the commands by what a builder wants to do."""
    lines = title("hardstand", "from bare airframe to first flight", measure)
    for paragraph in _paragraphs(program.help):
        lines += [BLANK, *flow(paragraph, measure)]
    usages = {name: _usage(name, one) for name, one in program.commands.items()}
    widest = max(len(usage) for usage in usages.values())
    for section, names in _sections(program.commands).items():
        rows: list[tuple[Cell, ...]] = []
        for name in names:
            usage = line((name, "strong"), usages[name].removeprefix(name).ljust(widest - len(name)))
            rows.append((usage, program.commands[name].get_short_help_str(200)))
        body = table((Column(""), Column("", flowed=True)), rows, measure - 2, head=False)
        lines += [BLANK, line((section, "quiet")), *indented(body, 2)]
    lines += [BLANK, *flow("DIR is the aeroplane's folder; without it, the folder you are in. "
                           "`hardstand COMMAND --help` says more about a command.", measure)]
    return [*lines, *flow(_STATUS, measure, ink="quiet")]


def command_help(command: click.Command, path: str, measure: int) -> list[Line]:
    """The page of one command."""
    usage = _usage(path, command)
    options = [one for one in command.params if isinstance(one, click.Option)]
    lines = [*flow(line((usage, "strong"), " [options]" if options else ""), measure, hang=4)]
    for paragraph in _paragraphs(command.help):
        lines += [BLANK, *flow(paragraph, measure)]
    rows: list[tuple[Cell, ...]] = [
        ((_name(one), "strong"), _says(one)) for one in (*_arguments(command), *options)]
    rows.append((("--help", "strong"), "show this page"))
    body = table((Column(""), Column("", flowed=True)), rows, measure - 2, head=False)
    return [*lines, BLANK, *indented(body, 2)]


def _paragraphs(text: str | None) -> list[str]:
    cleaned = inspect.cleandoc(text or "")
    return [" ".join(one.split()) for one in cleaned.split("\n\n") if one.strip()]


def _sections(commands: Mapping[str, click.Command]) -> dict[str, list[str]]:
    sections: dict[str, list[str]] = {}
    for name, one in commands.items():
        sections.setdefault(getattr(one, "section", "") or "More", []).append(name)
    return sections


def _arguments(command: click.Command) -> list[click.Argument]:
    return [one for one in command.params if isinstance(one, click.Argument)]


def _usage(path: str, command: click.Command) -> str:
    """The command with its arguments as they are written.

    >>> _usage("check", click.Command("check", params=[click.Argument(["dir"], required=False)]))
    'check [DIR]'
    """
    return " ".join([path, *(_argument(one) for one in _arguments(command))])


def _argument(one: click.Argument) -> str:
    name = (one.metavar or str(one.name)).upper()
    more = "..." if one.nargs == -1 else ""
    return f"{name}{more}" if one.required else f"[{name}]{more}"


def _name(one: click.Parameter) -> str:
    if isinstance(one, click.Argument):
        return (one.metavar or str(one.name)).upper()
    assert isinstance(one, click.Option)
    names = ", ".join(sorted(one.opts, key=len))
    if one.is_flag:
        return names
    if isinstance(one.type, click.Choice):
        return f"{names} {'|'.join(str(choice) for choice in one.type.choices)}"
    return f"{names} {one.metavar or str(one.name).upper()}"


def _says(one: click.Parameter) -> str:
    text = getattr(one, "help", None) or ""
    return f"{text} (may be given again)" if isinstance(one, click.Option) and one.multiple else text
