"""`loftwright serve`: the studio in the browser."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loftwright.cli.options import example
from loftwright.cli.output import emit_lines

if TYPE_CHECKING:
    from loftwright.web.certificate import Certificate

_NEAR = frozenset({"localhost", "127.0.0.1", "::1"})
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
    certificate: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Encrypt the link under this certificate (PEM)."),
    ] = None,
    key: Annotated[
        Path | None, typer.Option(metavar="FILE", help="The certificate's key (PEM).")
    ] = None,
    proxy: Annotated[
        list[str] | None,
        typer.Option(
            metavar="ADDRESS", help="A reverse proxy whose word about a sender is believed."
        ),
    ] = None,
    forget_pin: Annotated[
        bool, typer.Option("--forget-pin", help="Take away this machine's own lock.")
    ] = False,
    demo: Annotated[
        bool, typer.Option("--demo", help="Show an invented studio, kept apart from yours.")
    ] = False,
    log: Annotated[
        str,
        typer.Option(
            metavar="FILE",
            help="Where the program's log goes; - is standard error. logs/loftwright.log in the "
            "data folder without it.",
        ),
    ] = "",
) -> None:
    """Open the studio in the browser, until Ctrl-C.

    Everything stays on this machine and is kept in the data folder (LOFTWRIGHT_DATA).
    """
    from loftwright.services.daily_backup import DailyBackup  # noqa: PLC0415
    from loftwright.services.opening import (  # noqa: PLC0415
        hold_studio,
        open_demo_studio,
        open_studio,
    )
    from loftwright.services.pin_lock import THIS_MACHINE, PinLocks  # noqa: PLC0415
    from loftwright.services.serving_log import started_log  # noqa: PLC0415
    from loftwright.services.studio import utc_now  # noqa: PLC0415
    from loftwright.web.app import create_app  # noqa: PLC0415
    from loftwright.web.certificate import read_certificate  # noqa: PLC0415
    from loftwright.web.relays import proxy_addresses  # noqa: PLC0415
    from loftwright.web.server import (  # noqa: PLC0415
        access_for,
        listen,
        port_of,
        serve_until_stopped,
    )

    encrypted = read_certificate(certificate, key, utc_now())
    proxies = proxy_addresses(proxy or [])
    sockets = listen(host, port)
    names = (*(name or ()), *(encrypted.names if encrypted is not None else ()))
    access = access_for(host, names, proxies)
    with hold_studio(demo=demo), started_log(log) as program_log:
        studio = open_demo_studio() if demo else open_studio()
        if forget_pin:
            PinLocks(studio.store, studio.now).drop(THIS_MACHINE, sure=True)
        daily = None if demo else DailyBackup(studio)
        app = create_app(studio, access=access, program_log=program_log, daily=daily)
        if demo:
            from loftwright.services.demo_record import fill_record_aside  # noqa: PLC0415

            fill_record_aside(studio)
        lines = _welcome(host, port_of(sockets[0]), encrypted, paired=access.paired)
        serve_until_stopped(app, sockets, studio.hub, lambda: emit_lines(lines), encrypted)


def _welcome(
    host: str, port: int, certificate: "Certificate | None", *, paired: bool
) -> list[str]:
    from loftwright.web.server import outer_address, web_address  # noqa: PLC0415

    scheme = "http" if certificate is None else "https"
    near = web_address("127.0.0.1" if paired else host, port, scheme)
    lines = [f"Loftwright is at {near}"]
    if paired:
        outer = outer_address(host)
        if certificate is not None:
            outer = next(
                (one for one in certificate.names if one not in _NEAR and "*" not in one), outer
            )
        lines += [
            f"Other devices open {web_address(outer, port, scheme)}",
            f"and ask for a code, which you make at {near}/devices.",
        ]
    return lines + list(certificate.doubts if certificate is not None else ())
