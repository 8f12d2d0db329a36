"""`hardstand serve`: the workbench in a browser."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from hardstand.cli.folders import open_at
from hardstand.cli.refusal import UNREADABLE, Refusal
from hardstand.cli.shared import folder, options
from hardstand.cli.sheet import Command
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    import socket
    from collections.abc import Callable

    from hardstand.description.storage import Folder


@click.command(cls=Command, section="Change", short_help="open the workbench in a browser")
@folder
@options
@click.option("--port", type=click.IntRange(0, 65535), default=8620, metavar="NUMBER",
              help="where it listens, 8620 if left out; 0 takes any that is free")
@click.option("--lan", is_flag=True, help="also let in devices of the same network, such as a phone at "
                                          "the bench, by the code shown here")
@click.option("--no-browser", is_flag=True, help="only print the link")
@click.pass_obj
def serve(talk: Talk, folder: Path, options: tuple[str, ...], port: int, lan: bool, no_browser: bool) -> int:
    """Open the workbench: drawings to move things in, tables, findings with their remedies, all live.

    It listens on this machine alone. The link carries a code that lets one browser in, once; the next
    code is printed when it is spent. With --lan it listens to the network that this machine is in, and
    shows the code for a phone's camera; what passes there is not encrypted, so use a network that you
    trust. Interrupt it to end.
    """
    from hardstand.workbench.serving import (
        ServedAlreadyError,
        alone,
        lan_address,
        listening,
        origins_of,
    )

    place = open_at(folder)
    outward = lan_address() if lan else None
    try:
        at = listening("0.0.0.0" if lan else "127.0.0.1", port)  # noqa: S104 only where it is asked for
    except OSError as error:
        raise Refusal(f"Port {port} cannot be used: {(error.strerror or str(error)).lower()}.",
                      "Give another with --port, or 0 for any that is free.", UNREADABLE) from None
    origins = origins_of(at.getsockname()[1], outward)
    with at:
        try:
            with alone(place, origins[0]):
                _run(talk, place, options, at, origins, lan=lan, browser=not (no_browser or lan))
        except ServedAlreadyError as error:
            raise Refusal("This aeroplane is open already in another workbench.",
                          f"It is at {error.at}." if error.at else "End that one first.", UNREADABLE) from None
    return 0


def _run(talk: Talk, place: Folder, options: tuple[str, ...], at: socket.socket, origins: list[str],
         *, lan: bool, browser: bool) -> None:
    import webbrowser

    from hardstand.cli.progress import progress
    from hardstand.workbench.bench import Bench
    from hardstand.workbench.gate import Gate
    from hardstand.workbench.serving import serve as run

    show = shown(talk, origins, with_square=lan)
    with progress(talk, "reading the aeroplane"):
        bench = Bench(place, options)
    gate = Gate(origins, show)

    def ready() -> None:
        show(gate.code)
        if browser:
            webbrowser.open(link(origins[0], gate.code))

    try:
        run(bench, gate, at, ready)
    except KeyboardInterrupt:
        return


def link(origin: str, code: str) -> str:
    """The link that lets a browser in. The code stands behind the #, which is sent nowhere.

    >>> link("http://127.0.0.1:8620", "abc")
    'http://127.0.0.1:8620/enter#abc'
    """
    return f"{origin}/enter#{code}"


def shown(talk: Talk, origins: list[str], *, with_square: bool) -> Callable[[str], None]:
    """What shows each new code: the link, for the network with a square that a phone's camera reads."""
    from hardstand.views.trouble import trouble_page

    def show(code: str) -> None:
        at = link(origins[0], code)
        if with_square:
            import io

            import segno

            drawn = io.StringIO()
            segno.make(at, error="m").terminal(drawn, compact=True, border=2)
            talk.text(drawn.getvalue())
        talk.page(trouble_page(at, "It lets one browser in; the next link follows when it is used. "
                                   "Interrupt to end.", talk.measure))
        talk.out.flush()

    return show
