"""What many commands take alike: the folder, options to lay over, units, JSON."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

from hardstand.cli.sheet import Argument
from hardstand.cli.talk import Talk

F = TypeVar("F", bound=Callable[..., Any])


def _wants_json(context: click.Context, _: click.Parameter, wanted: bool) -> bool:
    if isinstance(context.obj, Talk):
        context.obj.as_json = wanted
    return wanted


def folder(function: F) -> F:
    """Adds the argument DIR, which reaches the command as `folder`."""
    return click.argument("folder", cls=Argument, metavar="DIR", default=".", type=Path,
                          help="the aeroplane's folder; the present one if left out")(function)


def as_json(function: F) -> F:
    """Adds `--json`, which sets `as_json` of the talk."""
    return click.option("--json", "as_json", is_flag=True, is_eager=True, expose_value=False,
                        callback=_wants_json, help="print one JSON object instead (docs/json.md)")(function)


def options(function: F) -> F:
    """Adds `--option`, which reaches the command as `options`, in the order named."""
    return click.option("--option", "options", multiple=True, metavar="NAME",
                        help="lay an option of the description over it")(function)


def units(function: F) -> F:
    """Adds `--units`, which reaches the command as `units`."""
    return click.option("--units", type=click.Choice(["metric", "imperial"]), default="metric",
                        help="how figures are shown; files never change")(function)
