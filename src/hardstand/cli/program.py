"""The program's commands, in the order in which a builder meets them."""

from __future__ import annotations

import click

import hardstand
from hardstand.cli.alternatives import list_options
from hardstand.cli.back import history, redo, undo
from hardstand.cli.begin import demo, new
from hardstand.cli.channels import channels
from hardstand.cli.check import check
from hardstand.cli.compare import compare
from hardstand.cli.completion import completion
from hardstand.cli.draw import draw
from hardstand.cli.edit import apply, set_value
from hardstand.cli.explain import explain
from hardstand.cli.harness import harness
from hardstand.cli.import_mesh import import_mesh
from hardstand.cli.measure import measure
from hardstand.cli.parts import parts
from hardstand.cli.place import place
from hardstand.cli.rename import rename
from hardstand.cli.schema import schema
from hardstand.cli.serve import serve
from hardstand.cli.sheet import Program
from hardstand.cli.show import show
from hardstand.cli.template import template
from hardstand.cli.tidy import fmt
from hardstand.cli.trace import trace
from hardstand.cli.weigh import weigh


@click.group(cls=Program, context_settings={"help_option_names": ["--help"]})
@click.version_option(hardstand.__version__, "--version", message="hardstand %(version)s",
                      help="print the version")
def program() -> None:
    """From one description of a large turbine model jet: what fits, what balances, what is wrong.

    It says what must not fly like this, what to measure next and how to put it right. Every figure
    has its tolerance and leads to the line of the file that it came from.
    """


for command in (demo, new, serve, check, show, compare, place, channels, draw, template, harness, trace,
                explain, measure, weigh, import_mesh, apply, set_value, rename, undo, redo, fmt, parts,
                list_options, history, schema, completion):
    program.add_command(command)
