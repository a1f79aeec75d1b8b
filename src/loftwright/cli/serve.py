"""`loftwright serve`: the studio in the browser."""

from typing import Annotated

import typer

from loftwright.cli.options import example
from loftwright.cli.output import emit_lines

_EXAMPLE = example("loftwright serve", "loftwright serve --demo --port 0")


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(serve)


def serve(
    host: Annotated[
        str,
        typer.Option(
            metavar="ADDRESS",
            help="Where to listen; 0.0.0.0 lets in other devices, each by a code.",
        ),
    ] = "127.0.0.1",
    port: Annotated[
        int, typer.Option(metavar="PORT", min=0, max=65535, help="0 takes any that is free.")
    ] = 8432,
    name: Annotated[
        list[str] | None,
        typer.Option(metavar="NAME", help="Another name by which devices call this machine."),
    ] = None,
    demo: Annotated[
        bool, typer.Option("--demo", help="Show an invented studio, kept apart from yours.")
    ] = False,
) -> None:
    """Open the studio in the browser, until Ctrl-C.

    Everything stays on this machine and is kept in the data folder (LOFTWRIGHT_DATA).
    """
    from loftwright.services.opening import open_demo_studio, open_studio  # noqa: PLC0415
    from loftwright.web.app import create_app  # noqa: PLC0415
    from loftwright.web.server import (  # noqa: PLC0415
        access_for,
        listen,
        port_of,
        serve_until_stopped,
    )

    sockets = listen(host, port)
    access = access_for(host, name or ())
    studio = open_demo_studio() if demo else open_studio()
    app = create_app(studio, access=access)
    if demo:
        from loftwright.services.demo_record import fill_record_aside  # noqa: PLC0415

        fill_record_aside(studio)
    lines = _welcome(host, port_of(sockets[0]), paired=access.paired)
    serve_until_stopped(app, sockets, studio.hub, lambda: emit_lines(lines))


def _welcome(host: str, port: int, *, paired: bool) -> list[str]:
    from loftwright.web.server import outer_address, web_address  # noqa: PLC0415

    near = web_address("127.0.0.1" if paired else host, port)
    lines = [f"Loftwright is at {near}"]
    if paired:
        lines += [
            f"Other devices open {web_address(outer_address(host), port)}",
            f"and ask for a code, which you make at {near}/devices.",
        ]
    return lines
