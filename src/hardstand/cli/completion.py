"""`hardstand completion`: the script that lets a shell complete commands and options."""

from __future__ import annotations

import click

from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk

SHELLS = {"bash": "~/.bashrc", "zsh": "~/.zshrc", "fish": "~/.config/fish/completions/hardstand.fish"}


@click.command(cls=Command, section="Look up", short_help="print the completion script of a shell")
@click.argument("shell", cls=Argument, type=click.Choice(list(SHELLS)), help="bash, zsh or fish")
@click.pass_obj
def completion(talk: Talk, shell: str) -> int:
    """Print the script with which a shell completes hardstand's commands and options.

    For bash, `hardstand completion bash >> ~/.bashrc`; for zsh the same with ~/.zshrc; for fish,
    save it as ~/.config/fish/completions/hardstand.fish. Then open a new terminal.
    """
    from click.shell_completion import get_completion_class

    from hardstand.cli.program import program

    found = get_completion_class(shell)
    assert found is not None  # the choices are the shells that there is one for
    made = found(program, {}, "hardstand", "_HARDSTAND_COMPLETE")
    talk.text(f"# hardstand, for {SHELLS[shell]}\n{made.source_template % made.source_vars()}\n")
    return 0
