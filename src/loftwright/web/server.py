"""The server process: where it listens, how it says so, and how it ends."""

import errno
import os
import socket
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from ipaddress import ip_address
from typing import Final

import uvicorn
from fastapi import FastAPI

from loftwright.errors import UsageError
from loftwright.services.live import Hub
from loftwright.web.certificate import Certificate
from loftwright.web.patience import PatientProtocol
from loftwright.web.security import LOOPBACK, Access

SWITCH: Final = 0.0005
"""Seconds after which a thread that computes lets one that answers go first; Python's usual ten
times as long delays every ball by some of them."""

_NEAR: Final = "127.0.0.1"
_NOWHERE: Final = ("192.0.2.1", 9)
"""An address of RFC 5737 that no machine has: asking the way to it sends nothing."""


class StudioServer(uvicorn.Server):
    """A server that tells when it answers, and lets event streams go before it ends.

    Parameters
    ----------
    app : FastAPI
    hub : Hub
        Whose watches keep event streams open.
    ready : callable
        Called once when the first request would be answered.
    certificate : Certificate, optional
        Under which the link is encrypted.
    """

    def __init__(
        self,
        app: FastAPI,
        hub: Hub,
        ready: Callable[[], None],
        certificate: Certificate | None = None,
    ) -> None:
        super().__init__(
            uvicorn.Config(
                app,
                http=PatientProtocol,
                ws="none",
                ssl_certfile=certificate.file if certificate is not None else None,
                ssl_keyfile=certificate.key if certificate is not None else None,
                log_config=None,
                access_log=False,
                proxy_headers=False,
                server_header=False,
                timeout_graceful_shutdown=1,
            )
        )
        self._hub = hub
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Begin to answer, and say so."""
        await super().startup(sockets=sockets)
        if self.started:
            self._ready()

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """End: first the event streams, which would be waited for."""
        self._hub.close()
        await super().shutdown(sockets=sockets)


def serve_until_stopped(
    app: FastAPI,
    sockets: Sequence[socket.socket],
    hub: Hub,
    ready: Callable[[], None],
    certificate: Certificate | None = None,
) -> None:
    """Answer until the process is told to stop, by Ctrl-C for example."""
    sys.setswitchinterval(SWITCH)
    with suppress(KeyboardInterrupt):
        StudioServer(app, hub, ready, certificate).run(sockets=list(sockets))


def listen(host: str, port: int) -> list[socket.socket]:
    """Return sockets that listen where the studio is to be reached.

    This machine always reaches it as 127.0.0.1, where the first device's code is shown.

    Parameters
    ----------
    host : str
        A name or an address; `0.0.0.0` or `::` for every address of this machine.
    port : int
        0 for any that is free.

    Raises
    ------
    UsageError
        If the port is taken or the host is not this machine's.
    """
    first = _bound(host, port)
    if host in LOOPBACK or _is_any(host):
        return [first]
    return [first, _bound(_NEAR, port_of(first))]


def port_of(listening: socket.socket) -> int:
    """Return the port on which a socket listens."""
    return int(listening.getsockname()[1])


def access_for(
    host: str, names: Sequence[str] = (), proxies: frozenset[str] = frozenset()
) -> Access:
    """Return under which names a studio is reached that listens at a host.

    Parameters
    ----------
    host : str
    names : sequence of str
        More names, as a router or a hosts file gives them.
    proxies : frozenset of str
        Addresses of reverse proxies; through one it is reached from beyond, wherever it listens.
    """
    if host in LOOPBACK and not proxies:
        return Access(names=frozenset(name.lower() for name in names))
    machine = socket.gethostname().lower()
    known = {machine, f"{machine}.local", host.lower(), *(name.lower() for name in names)}
    return Access(names=frozenset(known), addresses=True, paired=True, proxies=proxies)


def outer_address(host: str) -> str:
    """Return the address under which other devices reach this machine."""
    if not _is_any(host):
        return host
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(_NOWHERE)
        except OSError:
            return socket.gethostname()
        return str(asking.getsockname()[0])


def web_address(host: str, port: int, scheme: str = "http") -> str:
    """Return the address that a browser opens."""
    return f"{scheme}://[{host}]:{port}" if ":" in host else f"{scheme}://{host}:{port}"


def _bound(host: str, port: int) -> socket.socket:
    try:
        found = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
    except (socket.gaierror, UnicodeError) as error:
        raise UsageError(
            f"no address belongs to {host!r}", place="--host", mend="Give 127.0.0.1 or 0.0.0.0."
        ) from error
    made = socket.socket(found[0], socket.SOCK_STREAM)
    made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        made.bind(found[4])
        made.listen(128)
    except OSError as error:
        made.close()
        raise _refused(host, port, error) from error
    return made


def _refused(host: str, port: int, error: OSError) -> UsageError:
    if error.errno == errno.EADDRINUSE:
        return UsageError(
            f"port {port} is taken, perhaps by a Loftwright that runs already",
            place="--port",
            mend="Stop that one, or give another port; 0 takes any that is free.",
        )
    reason = os.strerror(error.errno) if error.errno else str(error)
    return UsageError(
        f"cannot listen at {host}, port {port}: {reason}",
        place="--host",
        mend="Give an address of this machine and a port from 1024 up.",
    )


def _is_any(host: str) -> bool:
    try:
        return ip_address(host).is_unspecified
    except ValueError:
        return False
